/* Answers print open, whatever is open on the screen. Without script they open by hand. */
(function () {
  "use strict";

  var opened = [];

  window.addEventListener("beforeprint", function () {
    opened = Array.prototype.slice.call(document.querySelectorAll("details:not([open])"));
    opened.forEach(function (answer) {
      answer.open = true;
    });
  });
  window.addEventListener("afterprint", function () {
    opened.forEach(function (answer) {
      answer.open = false;
    });
    opened = [];
  });
})();
