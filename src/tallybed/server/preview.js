// Loads the page again when the preview has it otherwise. Only the preview adds this to a page.
const shown = document.currentScript.dataset.version;

async function wait() {
  const page = encodeURIComponent(location.pathname);
  for (;;) {
    try {
      const answer = await fetch(`/.tallybed/changes?page=${page}&since=${shown}`, { cache: "no-store" });
      if (answer.ok && (await answer.text()) !== shown) {
        location.reload();
        return;
      }
    } catch {
      // The preview has ended, or starts again: ask again in a while.
    }
    await new Promise((done) => setTimeout(done, 300));
  }
}

wait();
