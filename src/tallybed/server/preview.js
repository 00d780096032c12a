// Loads the page again when the preview has something newer. Only the preview adds this to a page.
const shown = document.currentScript.dataset.version;

async function wait() {
  for (;;) {
    try {
      const answer = await fetch(`/.tallybed/changes?since=${shown}`, { cache: "no-store" });
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
