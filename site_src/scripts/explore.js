/* The charts of all fluids, made interactive when they come into view. The figures come from a data
   script, the colours from the page; the drawings under them stay where anything fails. */
(function () {
  "use strict";

  const shared = (window.isofolio = window.isofolio || {});
  // The folder of this script: a published copy names it anew each time, with its own data beside it.
  const here = document.currentScript.src.replace(/[^/]*$/, "");
  const charts = Array.from(document.querySelectorAll(".chart"));
  const NEEDED = ["explore-data", "plotly.min"];
  const NEAR = "200px";
  if (!charts.length || !window.IntersectionObserver) return;

  let reading = null;
  const drawn = new Set();

  function read(name) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.async = false;
      script.src = here + name + ".js";
      script.onload = resolve;
      script.onerror = reject;
      document.head.append(script);
    });
  }

  /* ---- Colours of the page. ---- */

  const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

  function coloured(figure) {
    const ink = colour("--ion-ink");
    const second = colour("--ion-second");
    const clear = "rgba(0,0,0,0)";
    const axis = (given) => ({ ...given, gridcolor: colour("--rule"), linecolor: ink, tickcolor: ink });
    const { layout } = figure;
    return {
      data: figure.data.map((trace) => {
        const line = { ...trace.marker.line, color: ink };
        return { ...trace, marker: { ...trace.marker, color: colour(trace.meta), line } };
      }),
      layout: {
        ...layout,
        paper_bgcolor: clear,
        plot_bgcolor: clear,
        font: { color: ink, family: colour("--face") },
        xaxis: axis(layout.xaxis),
        yaxis: axis(layout.yaxis),
        hoverlabel: { bgcolor: colour("--paper"), bordercolor: ink, font: { color: ink, family: colour("--face") }, align: "left" },
        shapes: (layout.shapes || []).map((shape) => ({ ...shape, line: { ...shape.line, color: second } })),
        annotations: (layout.annotations || []).map((words) => ({ ...words, font: { color: second } })),
      },
    };
  }

  /* ---- Drawing. ---- */

  async function draw(chart) {
    const { config, charts: figures } = shared.explore;
    const given = figures[chart.dataset.chart];
    const live = chart.querySelector(".chart-live");
    const { data, layout } = coloured(given.figure);
    live.hidden = false;
    await window.Plotly.react(live, data, layout, config);
    chart.querySelector(".chart-still").hidden = true;
    chart.querySelector(".chart-ways").hidden = false;
    drawn.add(chart);
  }

  function show(chart, name) {
    const [across, up] = shared.explore.charts[chart.dataset.chart].ranges[name];
    const live = chart.querySelector(".chart-live");
    window.Plotly.relayout(live, { "xaxis.range": across.slice(), "yaxis.range": up.slice() });
    for (const button of chart.querySelectorAll("[data-range]")) {
      button.setAttribute("aria-pressed", String(button.dataset.range === name));
    }
  }

  /* A fault in a drawing is a fault to be seen; the reader still has the drawing under it. */
  function tried(chart) {
    return draw(chart).catch((error) => {
      stay(chart);
      throw error;
    });
  }

  function stay(chart) {
    chart.querySelector(".chart-live").hidden = true;
    chart.querySelector(".chart-still").hidden = false;
  }

  const seen = new IntersectionObserver(
    (entries) => {
      for (const entry of entries) {
        if (!entry.isIntersecting) continue;
        const chart = entry.target;
        seen.unobserve(chart);
        reading = reading || Promise.all(NEEDED.map(read));
        reading.then(
          () => tried(chart),
          () => stay(chart)
        );
      }
    },
    { rootMargin: NEAR }
  );

  for (const chart of charts) {
    seen.observe(chart);
    for (const button of chart.querySelectorAll("[data-range]")) {
      button.addEventListener("click", () => show(chart, button.dataset.range));
    }
  }

  /* Light or dark, chosen on the page or by the system: the same figures in other colours. */
  function again() {
    for (const chart of drawn) {
      const live = chart.querySelector(".chart-live");
      const ranges = [live.layout.xaxis.range.slice(), live.layout.yaxis.range.slice()];
      draw(chart).then(() => {
        window.Plotly.relayout(live, { "xaxis.range": ranges[0], "yaxis.range": ranges[1] });
      });
    }
  }

  new MutationObserver(again).observe(document.documentElement, { attributeFilter: ["data-theme"] });
  window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", again);
})();
