#!/usr/bin/python3
"""A window with nothing in it but WebKitGTK, driven by its WebDriver: the engine family of Safari, not Safari itself.

WebKitGTK's own test browser cannot be as narrow as a phone, because of its tool bar, and forgets what a page stored when
it closes. This one is as wide as it is told and keeps everything in the folder it is given; what the console is told, its
pages' processes write into `console.txt` there.
"""

import argparse
import os

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gtk, WebKit2  # noqa: E402

ask = argparse.ArgumentParser()
ask.add_argument("--width", type=int, required=True)
ask.add_argument("--height", type=int, required=True)
ask.add_argument("--profile", required=True)
ask.add_argument("--without-javascript", action="store_true")
told = ask.parse_args()

# Before anything else starts: the processes of the pages inherit it.
console = os.open(
    os.path.join(told.profile, "console.txt"), os.O_WRONLY | os.O_CREAT | os.O_APPEND
)
os.dup2(console, 1)

stored = WebKit2.WebsiteDataManager(
    base_data_directory=os.path.join(told.profile, "data"),
    base_cache_directory=os.path.join(told.profile, "cache"),
)
context = WebKit2.WebContext.new_with_website_data_manager(stored)
context.get_cookie_manager().set_persistent_storage(
    os.path.join(told.profile, "cookies"), WebKit2.CookiePersistentStorage.SQLITE
)
context.set_preferred_languages(["en-GB", "en"])
context.set_automation_allowed(True)
settings = WebKit2.Settings(
    enable_javascript=not told.without_javascript,
    enable_write_console_messages_to_stdout=True,
)


def open_window(_session):
    view = WebKit2.WebView(
        web_context=context, is_controlled_by_automation=True, settings=settings
    )
    window = Gtk.Window()
    window.set_decorated(False)
    window.set_default_size(told.width, told.height)
    window.add(view)
    window.show_all()
    window.connect("destroy", lambda _window: Gtk.main_quit())
    return view


def automated(_context, session):
    session.connect("create-web-view", open_window)


context.connect("automation-started", automated)
Gtk.main()
