/* PNG files of the drawings, made in the browser: the drawing is read from a script of its own (a
   drawing read from a file may not be copied out of a canvas), painted at its scale and handed over. */
(function () {
  "use strict";

  const shared = (window.isofolio = window.isofolio || {});
  // The folder of this script: a published copy names it anew each time, with its own data beside it.
  const here = document.currentScript.src.replace(/[^/]*$/, "");
  const buttons = document.querySelectorAll("button[data-drawing]");
  const status = document.getElementById("gallery-status");
  const FAILED = "The drawing could not be made into a PNG here. Take the SVG.";
  const { scale } = document.querySelector("[data-scale]").dataset;

  function read(identifier) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = here + "gallery/" + identifier + ".js";
      script.onload = () => resolve(shared.drawings[identifier]);
      script.onerror = () => reject(new Error(script.src));
      document.head.append(script);
      script.remove();
    });
  }

  function picture(svg) {
    return new Promise((resolve, reject) => {
      const image = new Image();
      image.onload = () => resolve(image);
      image.onerror = reject;
      image.src = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(svg);
    });
  }

  function painted(image) {
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(image.width * scale);
    canvas.height = Math.round(image.height * scale);
    canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
    return new Promise((resolve, reject) => {
      canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("no picture"))), "image/png");
    });
  }

  function hand(blob, name) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    status.textContent = "Made " + name + ".";
  }

  function make(identifier) {
    read(identifier)
      .then(picture)
      .then(painted)
      .then((blob) => hand(blob, "isofolio-" + identifier + ".png"))
      .catch(() => {
        status.textContent = FAILED;
        status.className = "status-box";
      });
  }

  for (const button of buttons) {
    button.hidden = false;
    button.addEventListener("click", () => make(button.dataset.drawing));
  }
})();
