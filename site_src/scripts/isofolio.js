/* What every page does beyond showing itself: light or dark, links to copy, a banner when a copy is
   past its due date. A classic script with one global, so that it works from a file share. */
(function () {
  "use strict";

  var root = document.documentElement;
  var order = ["", "light", "dark"];
  var words = { "": "Theme: as the system", light: "Theme: light", dark: "Theme: dark" };

  var THEME = "isofolio-theme";
  var KEYS = "isofolio-keys";

  function stored(name) {
    try {
      return window.localStorage.getItem(name) || "";
    } catch (error) {
      return ""; // storage is shut on some locked-down PCs: the system's theme is shown
    }
  }

  function store(name, value) {
    try {
      window.localStorage.setItem(name, value);
    } catch (error) {
      /* the choice lasts as long as the page */
    }
  }

  function show(theme) {
    if (theme) {
      root.setAttribute("data-theme", theme);
    } else {
      root.removeAttribute("data-theme");
    }
    var button = document.getElementById("theme-switch");
    if (button) {
      button.hidden = false;
      button.textContent = words[theme];
    }
  }

  function turn() {
    var now = root.getAttribute("data-theme") || "";
    var next = order[(order.indexOf(now) + 1) % order.length];
    store(THEME, next);
    show(next);
  }

  function address(anchor) {
    return window.location.href.split("#")[0] + "#" + anchor;
  }

  function copied(button, text) {
    var said = button.firstChild.textContent;
    button.firstChild.textContent = text;
    window.setTimeout(function () {
      button.firstChild.textContent = said;
    }, 2000);
  }

  function offerCopies() {
    var short = root.getAttribute("data-page").replace(/\.html$/, "");
    document.querySelectorAll("button.copy").forEach(function (button) {
      var anchor = button.getAttribute("data-anchor");
      button.hidden = false;
      button.addEventListener("click", function () {
        var text = address(anchor) + "\n" + short + "#" + anchor;
        if (!navigator.clipboard) {
          window.location.hash = anchor;
          copied(button, "copy it from the address line");
          return;
        }
        navigator.clipboard.writeText(text).then(
          function () {
            copied(button, "copied");
          },
          function () {
            window.location.hash = anchor;
            copied(button, "copy it from the address line");
          }
        );
      });
    });
  }

  /* On the home page a digit opens an emergency page; the reader may turn that off, and it stays off. */
  function listenForKeys() {
    var line = document.getElementById("keys-line");
    if (!line) {
      return;
    }
    var button = document.getElementById("keys-switch");
    var off = stored(KEYS) === "off";
    function say() {
      button.textContent = off ? "turn the keys on" : "turn the keys off";
      button.setAttribute("aria-pressed", off ? "false" : "true");
    }
    line.hidden = false;
    say();
    button.addEventListener("click", function () {
      off = !off;
      store(KEYS, off ? "off" : "");
      say();
    });
    document.addEventListener("keydown", function (event) {
      var busy = event.ctrlKey || event.metaKey || event.altKey || /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName);
      var link = !off && !busy && document.querySelector("a[data-key='" + CSS.escape(event.key) + "']");
      if (link) {
        link.click();
      }
    });
  }

  function warnIfDue() {
    var due = root.getAttribute("data-due");
    var today = new Date().toISOString().slice(0, 10);
    if (!due || today <= due) {
      return;
    }
    var banner = document.createElement("p");
    banner.className = "status-box";
    banner.setAttribute("role", "note");
    banner.textContent = "This copy was due for review on " + due + ": ask for a newer one.";
    document.getElementById("main").prepend(banner);
  }

  show(stored(THEME)); // before the page is painted; its button is labelled once it is there
  document.addEventListener("DOMContentLoaded", function () {
    show(stored(THEME));
    document.getElementById("theme-switch").addEventListener("click", turn);
    offerCopies();
    warnIfDue();
    listenForKeys();
  });
})();
