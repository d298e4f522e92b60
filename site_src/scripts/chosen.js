/* Shows one of several parts of a page: the one that the address names after its #. Without this
   script all of them stand below one another and the links lead to them. A classic script. */
(function () {
  "use strict";

  function parts(box) {
    return Array.prototype.slice.call(box.children);
  }

  function named(box) {
    return parts(box).filter(function (part) {
      return "#" + part.id === window.location.hash;
    })[0];
  }

  function mark(part) {
    document.querySelectorAll(".choose a").forEach(function (link) {
      if (part && link.getAttribute("href") === "#" + part.id) {
        link.setAttribute("aria-current", "true");
      } else {
        link.removeAttribute("aria-current");
      }
    });
  }

  function show(box, chosen) {
    parts(box).forEach(function (part) {
      part.hidden = part !== chosen;
    });
    mark(chosen);
  }

  function arrive(part) {
    var heading = part.querySelector("h2");
    part.scrollIntoView();
    heading.focus({ preventScroll: true });
  }

  function start(box) {
    var first = box.getAttribute("data-choose") === "first" ? box.children[0] : undefined;
    var chosen = named(box);
    show(box, chosen || first);
    if (chosen) {
      chosen.scrollIntoView();
    }
    window.addEventListener("hashchange", function () {
      var next = named(box);
      if (next) {
        show(box, next);
        arrive(next);
      } else if (!window.location.hash) {
        show(box, first);
      }
    });
  }

  document.querySelectorAll("[data-choose]").forEach(start);
})();
