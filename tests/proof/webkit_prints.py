"""Print pages by WebKitGTK, as its print dialog does. Debian's Python runs this: the bindings are no wheel.

Each line of standard input is one job, with tabs between its parts: a page's address, the name of a paper
(PWG 5101.1: ``iso_a4``), ``portrait`` or ``landscape``, and the file to print to. The margins are GTK's own.
"""

import sys

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import GLib, Gtk, WebKit2  # noqa: E402 - versions are asked for first

PATIENCE = 300
"""Seconds that all of it may take."""


class Printer:
    """One view in one hidden window, which prints one job after the other."""

    def __init__(self, jobs: list[list[str]]) -> None:
        self.jobs = jobs
        self.loop = GLib.MainLoop()
        self.wrong: list[str] = []
        window = Gtk.OffscreenWindow()
        window.set_default_size(1280, 900)
        self.view = WebKit2.WebView()
        self.view.connect("load-changed", self.loaded)
        window.add(self.view)
        window.show_all()

    def work(self) -> None:
        """Print every job; ends once the last is on its file."""
        GLib.idle_add(self.begin)
        GLib.timeout_add_seconds(PATIENCE, self.fail, "it took too long")
        self.loop.run()

    def begin(self) -> bool:
        """Open the page of the first job left."""
        if self.jobs:
            self.view.load_uri(self.jobs[0][0])
        else:
            self.loop.quit()
        return GLib.SOURCE_REMOVE

    def loaded(self, view: WebKit2.WebView, event: WebKit2.LoadEvent) -> None:
        """Print the page, once it is all there."""
        if event != WebKit2.LoadEvent.FINISHED:
            return
        _address, size, lie, to = self.jobs.pop(0)
        paper = Gtk.PageSetup()
        paper.set_paper_size_and_default_margins(Gtk.PaperSize.new(size))
        paper.set_orientation(getattr(Gtk.PageOrientation, lie.upper()))
        settings = Gtk.PrintSettings()
        settings.set_printer("Print to File")
        settings.set(Gtk.PRINT_SETTINGS_OUTPUT_FILE_FORMAT, "pdf")
        settings.set(Gtk.PRINT_SETTINGS_OUTPUT_URI, GLib.filename_to_uri(to))
        self.printing = WebKit2.PrintOperation.new(view)
        self.printing.set_page_setup(paper)
        self.printing.set_print_settings(settings)
        self.printing.connect("failed", lambda _printing, error: self.fail(error.message))
        self.printing.connect("finished", lambda _printing: GLib.idle_add(self.begin))
        self.printing.print_()

    def fail(self, why: str) -> bool:
        """Stop, and say why."""
        self.wrong.append(why)
        self.loop.quit()
        return GLib.SOURCE_REMOVE


if __name__ == "__main__":
    printer = Printer([line.rstrip("\n").split("\t") for line in sys.stdin])
    printer.work()
    sys.exit("; ".join(printer.wrong) or None)
