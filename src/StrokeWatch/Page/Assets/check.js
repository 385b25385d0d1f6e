// The view "What to check": what is found now and over weeks, the evidence, and what to check in a safe order.
import { ask, at, make, put, say } from "./words.js";
import { whileSeen } from "./views.js";

const percent = (share) => String(Math.round(100 * share));

function finding(one) {
  const title = one.words ?? say(`finding.${one.id}`);
  const made = make("article", "finding",
    make("h4", "", title),
    make("p", "life", one.confidence === null ? "" : say("check.sure", percent(one.confidence))),
    make("p", "because", one.because.join(" ")),
    make("h5", "", say("check.first")),
    make("ol", "", ...one.check_first.map((step) => make("li", "", step))));
  for (const more of [one.confirm, one.tell_apart]) {
    if (more) {
      made.append(make("p", "note", more));
    }
  }

  return made;
}

function fill(id, findings, none) {
  const key = JSON.stringify([findings, none]);
  if (at(id).dataset.key !== key) {
    at(id).dataset.key = key;
    at(id).replaceChildren(...(findings.length === 0 ? [make("p", "", none)] : findings.map(finding)));
  }
}

whileSeen("check", 5, async () => {
  const all = await ask("/api/v1/findings");
  put("check-trouble", "");
  put("lock-out", all.now.findings.length + all.over_weeks.findings.length > 0 ? all.lock_out : "");
  fill("check-now", all.now.findings, all.now.windows === 0 ? say("check.nothing-yet") : say("check.none", String(Math.round(all.now.length_s))));
  fill("check-weeks", all.over_weeks.findings, say("check.none-weeks"));
  put("check-progress", `${all.over_weeks.progress[0].toUpperCase()}${all.over_weeks.progress.slice(1)}.`);
}, (trouble) => put("check-trouble", say("trouble", trouble.message)));

