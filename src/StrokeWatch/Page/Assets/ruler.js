// The drawing: the trace of the stroke runs up to a rule that bears its band, millimetres on one edge and inches on the other.
const SVG = "http://www.w3.org/2000/svg";
const MM_PER_INCH = 25.4;
const STEPS = [1, 2, 5];
// Between trace and rule stands the hand with its doubt.
const HAND = 34;

function element(name, attributes, text) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) {
    made.setAttribute(key, typeof value === "number" ? String(Math.round(value * 100) / 100) : value);
  }

  if (text !== undefined) {
    made.textContent = text;
  }

  return made;
}

/** The smallest of 1, 2, 5 times a power of ten that is no smaller than asked for. */
function step(least) {
  const power = 10 ** Math.floor(Math.log10(least));
  return power * (STEPS.find((factor) => factor * power >= least - 1e-12) ?? 10);
}

/** What the rule covers: a band's width below the band, half the way from band to limit beyond it, and the trace, but no more than twice that. */
function range(band, values) {
  const least = 2 * band.low_mm - band.high_mm;
  const most = band.limit_mm + 0.5 * (band.limit_mm - band.high_mm);
  const seen = values.filter((value) => value !== null && value > 0);
  return [
    Math.max(Math.min(least, ...seen), least - (most - least) / 2, 0),
    Math.min(Math.max(most, ...seen.map((value) => value + 0.02 * (most - least))), most + (most - least) / 2),
  ];
}

export function drawRule(svg, { status, trend, tail, spanS, nowMs, say, duration }) {
  const width = svg.clientWidth;
  const height = svg.clientHeight;
  if (width < 150 || height < 100) {
    return;
  }

  const { band, stroke } = status;
  const columns = trend?.columns ?? [];
  const [least, most] = range(band, [stroke.pp_mm, ...columns.map((c) => c.least_mm), ...columns.map((c) => c.most_mm), ...tail.map((p) => p.mm)]);
  const big = width > 600;
  const ruleX = width - (big ? 150 : 122);
  const ruleWidth = big ? 76 : 58;
  const top = 22;
  const bottom = height - 24;
  const y = (mm) => bottom - ((Math.min(most, Math.max(least, mm)) - least) / (most - least)) * (bottom - top);
  const x = (ms) => ruleX - HAND - ((nowMs - ms) / (1e3 * spanS)) * (ruleX - HAND);
  const parts = [];
  const add = (name, attributes, text) => parts.push(element(name, attributes, text));

  // Band and limit run through trace and rule alike.
  add("rect", { class: "band", x: 0, y: y(band.high_mm), width: ruleX + ruleWidth, height: y(band.low_mm) - y(band.high_mm) });
  for (let at = -bottom; at < ruleX + ruleWidth; at += 12) {
    // Hatching beyond the limit, cut to its strip.
    const rise = y(band.limit_mm) - top;
    const from = Math.max(0, at);
    const to = Math.min(ruleX + ruleWidth, at + rise);
    if (to > from) {
      add("line", { class: "beyond", x1: from, y1: y(band.limit_mm) - (from - at), x2: to, y2: y(band.limit_mm) - (to - at) });
    }
  }

  for (const edge of [band.low_mm, band.high_mm]) {
    add("line", { class: "edge", x1: 0, y1: y(edge), x2: ruleX + ruleWidth, y2: y(edge) });
  }

  add("line", { class: "limit", x1: 0, y1: y(band.limit_mm), x2: ruleX + ruleWidth, y2: y(band.limit_mm) });
  add("text", { x: 4, y: y(band.high_mm) + 16 }, say("rule.band"));
  add("text", { x: 4, y: y(band.limit_mm) + 16 }, say("rule.limit"));

  trace({ add, columns, trend, tail, band, x, y, ruleX });
  if (columns.length === 0 && tail.length === 0) {
    add("text", { class: "soft", x: (ruleX - HAND) / 2, y: bottom - 12, "text-anchor": "middle" }, say("rule.empty"));
  }

  add("line", { class: "base", x1: 0, y1: bottom, x2: ruleX - HAND, y2: bottom });
  for (const part of big ? [1, 0.75, 0.5, 0.25, 0] : [1, 0.5, 0]) {
    const at = (1 - part) * (ruleX - HAND);
    add("line", { class: "tick", x1: at, y1: bottom, x2: at, y2: bottom + 5 });
    if (big || part !== 0.5) {
      add("text", { class: "soft", x: at, y: bottom + 19, "text-anchor": part === 1 ? "start" : part === 0 ? "end" : "middle" },
        part === 0 ? say("rule.now") : say("rule.ago", duration(part * spanS)));
    }
  }

  hand({ add, stroke, status, y, least, most, top, bottom, ruleX, ruleWidth, say });
  rule({ add, y, least, most, top, bottom, ruleX, ruleWidth });
  // Without a viewBox a unit is a pixel, and the drawing never grows by its own proportions.
  svg.replaceChildren(svg.querySelector("title"), ...parts);
}

function trace({ add, columns, trend, tail, band, x, y, ruleX }) {
  const bar = (from, to, low, high) => {
    const left = Math.max(0, x(from));
    const right = Math.min(ruleX - HAND, x(to));
    if (right > 0 && left < ruleX - HAND) {
      add("rect", {
        class: high > band.limit_mm ? "trace over" : "trace", x: left, y: y(high) - 1.25, width: Math.max(2, right - left), height: Math.max(2.5, y(low) - y(high) + 2.5),
      });
    }
  };
  for (const column of columns) {
    const from = Date.parse(trend.from_utc) + 1e3 * column.start_s;
    bar(from, from + 1e3 * trend.column_s, column.least_mm, column.most_mm);
  }

  for (const point of tail) {
    bar(point.ms - 500, point.ms, point.mm, point.mm);
  }
}

function rule({ add, y, least, most, top, bottom, ruleX, ruleWidth }) {
  const right = ruleX + ruleWidth;
  add("path", { class: "body", d: `M${ruleX} ${top}V${bottom}H${right}V${top}Z` });
  add("text", { class: "soft", x: ruleX + 2, y: top - 8 }, "mm");
  add("text", { class: "soft", x: right + 4, y: top - 8 }, "in");
  const apart = 34 / ((bottom - top) / (most - least));
  marks({ add, y, least, most, scale: 1, apart, digits: 2, edge: ruleX, inward: 1, label: ruleX + 15, anchor: "start" });
  marks({ add, y, least, most, scale: MM_PER_INCH, apart, digits: 3, edge: right, inward: -1, label: right + 4, anchor: "start" });
}

function marks({ add, y, least, most, scale, apart, digits, edge, inward, label, anchor }) {
  const labelled = step(apart / scale);
  const fine = labelled / 5;
  for (let n = Math.ceil(least / scale / fine); n * fine * scale <= most + 1e-9; n++) {
    const named = n % 5 === 0;
    const at = y(n * fine * scale);
    add("line", { class: "tick", x1: edge, y1: at, x2: edge + inward * (named ? 12 : 6), y2: at });
    if (named) {
      add("text", { x: label, y: at + 4.5, "text-anchor": anchor }, (n * fine).toFixed(Math.max(digits, -Math.floor(Math.log10(labelled) + 1e-9))));
    }
  }
}

function hand({ add, stroke, status, y, least, most, top, bottom, ruleX, ruleWidth, say }) {
  if (stroke.pp_mm === null || status.stroke.verdict === "stopped") {
    return;
  }

  const at = y(stroke.pp_mm);
  const over = stroke.pp_mm > status.band.limit_mm;
  if (stroke.uncertainty_mm !== null) {
    const [high, low] = [y(stroke.pp_mm + stroke.uncertainty_mm), y(stroke.pp_mm - stroke.uncertainty_mm)];
    add("path", { class: "doubt", d: `M${ruleX - 26} ${high}h10M${ruleX - 26} ${low}h10M${ruleX - 21} ${high}V${low}` });
  }

  add("line", { class: "line", x1: ruleX - 30, y1: at, x2: ruleX + ruleWidth, y2: at });
  add("path", { class: over ? "hand over" : "hand", d: `M${ruleX} ${at}l-17 -9v18Z` });
  if (stroke.pp_mm > most || stroke.pp_mm < least) {
    add("text", { x: ruleX + ruleWidth, y: stroke.pp_mm > most ? top + 16 : bottom - 6, "text-anchor": "end" }, say("rule.off", stroke.pp_mm.toFixed(3)));
  }
}
