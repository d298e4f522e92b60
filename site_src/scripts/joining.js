/* "Can this join that line?": the pairs that the page lists, for a drug, a fluid, or the two. Every
   sentence stands in the page; this script only finds and copies. A classic script. */
(function () {
  "use strict";

  var form = document.getElementById("join-form");
  if (!form) return;
  var what = document.getElementById("join-what");
  var fluid = document.getElementById("join-fluid");
  var answer = document.getElementById("join-answer");

  function all(selector) {
    return Array.prototype.slice.call(document.querySelectorAll(selector));
  }

  var pairs = all("[data-pair]");

  /* The pairs that stand beside a fluid, in their order there; where none is chosen, all. */
  function listed() {
    if (!fluid.value) return pairs;
    var box = all("[data-fluid]").find(function (one) {
      return one.getAttribute("data-fluid") === fluid.value;
    });
    return Array.prototype.slice.call(box.querySelectorAll("dd a")).map(function (link) {
      return pairs.find(function (pair) {
        return pair.href === link.href;
      });
    });
  }

  function found() {
    return listed().filter(function (link) {
      return !what.value || link.getAttribute("data-first") === what.value;
    });
  }

  function line(link) {
    var item = document.createElement("li");
    var copy = document.createElement("a");
    copy.href = link.href;
    copy.textContent = link.getAttribute("data-name");
    item.append(copy, ": " + link.getAttribute("data-told") + ".");
    return item;
  }

  function tell() {
    var links = what.value || fluid.value ? found() : [];
    var list = document.createElement("ul");
    list.className = "notes";
    links.forEach(function (link) {
      list.append(line(link));
    });
    answer.replaceChildren();
    answer.hidden = !what.value && !fluid.value;
    if (answer.hidden) return;
    if (links.length) answer.append(list);
    var rest = document.createElement("p");
    rest.textContent = answer.getAttribute(links.length ? "data-rest" : "data-blank");
    answer.append(rest);
  }

  form.addEventListener("change", tell);
  form.addEventListener("submit", function (event) {
    event.preventDefault();
  });
  form.hidden = false;
  // What a browser brings back of an earlier visit is answered too.
  window.addEventListener("pageshow", tell);
})();
