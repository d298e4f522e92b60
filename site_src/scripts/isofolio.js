/* What every page does beyond showing itself: light or dark, links to copy, a banner when a copy is
   past its due date. A classic script with one global, so that it works from a file share. */
(function () {
  "use strict";

  var root = document.documentElement;
  var order = ["", "light", "dark"];
  var words = { "": "Theme: as the system", light: "Theme: light", dark: "Theme: dark" };

  function stored() {
    try {
      return window.localStorage.getItem("isofolio-theme") || "";
    } catch (error) {
      return ""; // storage is shut on some locked-down PCs: the system's theme is shown
    }
  }

  function store(theme) {
    try {
      window.localStorage.setItem("isofolio-theme", theme);
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
    store(next);
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

  show(stored()); // before the page is painted; its button is labelled once it is there
  document.addEventListener("DOMContentLoaded", function () {
    show(stored());
    document.getElementById("theme-switch").addEventListener("click", turn);
    offerCopies();
    warnIfDue();
  });
})();
