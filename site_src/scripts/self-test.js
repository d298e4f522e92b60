/* The self-test: tells whether a chosen answer is right, and which slip leads to a wrong one. All
   words about fluids stand in the page, in its sheets of answers; this script only copies them. */
(function () {
  "use strict";

  var test = document.querySelector(".self-test");

  function add(box, name, text) {
    var made = document.createElement(name);
    made.textContent = text;
    box.appendChild(made);
    return made;
  }

  function copy(box, found) {
    if (found) {
      box.appendChild(found.cloneNode(true));
    }
  }

  function answersOf(question) {
    var name = question.getAttribute("data-question");
    return test.querySelector('[data-answers="' + name + '"]');
  }

  function count(paper, state) {
    return paper.querySelectorAll(".question" + state).length;
  }

  function tellScore(paper) {
    var answered = count(paper, "[data-told]");
    var right = count(paper, '[data-told="right"]');
    var left = count(paper, "") - answered;
    var rest = left ? left + " to go." : "That was the last one.";
    var text = right + " of " + answered + " right so far. " + rest;
    paper.querySelector(".score").textContent = answered ? text : "";
    paper.querySelector(".again").hidden = !answered;
  }

  function tell(question, chosen) {
    var verdict = question.querySelector(".verdict");
    var answers = answersOf(question);
    var right = chosen === answers.getAttribute("data-right");
    verdict.textContent = "";
    add(verdict, "p", right ? "Right." : "Not this one. The slip behind it:").className = "word";
    if (!right) {
      var slips = add(verdict, "ul", "");
      slips.className = "slips";
      copy(slips, answers.querySelector('[data-answer="' + chosen + '"]'));
      add(verdict, "p", "The right answer:");
    }
    copy(verdict, answers.querySelector(".right-answer"));
    copy(verdict, answers.querySelector(".taught"));
    question.setAttribute("data-told", right ? "right" : "wrong");
    question.querySelector(".check").hidden = true;
    question.querySelector("fieldset").disabled = true;
    verdict.hidden = false;
    verdict.focus();
  }

  function check(question, paper) {
    var chosen = question.querySelector("input:checked");
    var verdict = question.querySelector(".verdict");
    if (!chosen) {
      verdict.textContent = "Choose one of the answers first.";
      verdict.hidden = false;
      verdict.focus();
      return;
    }
    tell(question, chosen.value);
    tellScore(paper);
  }

  function clear(question) {
    question.removeAttribute("data-told");
    question.querySelector("fieldset").disabled = false;
    question.querySelector(".check").hidden = false;
    question.querySelector(".verdict").hidden = true;
    question.querySelectorAll("input").forEach(function (input) {
      input.checked = false;
    });
  }

  function prepare(paper) {
    var questions = paper.querySelectorAll(".question");
    questions.forEach(function (question) {
      var button = question.querySelector(".check");
      button.hidden = false;
      button.addEventListener("click", function () {
        check(question, paper);
      });
    });
    paper.querySelector(".again").addEventListener("click", function () {
      questions.forEach(clear);
      tellScore(paper);
      paper.querySelector("h2").focus();
    });
  }

  function choosePrint() {
    var box = document.getElementById("with-answers");
    box.parentNode.parentNode.hidden = false;
    box.addEventListener("change", function () {
      test.classList.toggle("without-answers", !box.checked);
    });
  }

  test.classList.add("scripted");
  test.querySelectorAll(".paper").forEach(prepare);
  choosePrint();
})();
