// The view "What to check": what is found now and over weeks, the evidence, and what to check in a safe order.
import { ask, at, clock, day, make, put, say } from "./words.js";
import { onShow, whileSeen } from "./views.js";
import { act, button, may, onSession, session, sheet } from "./access.js";

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


const number = (value) => (value === null ? "\u2013" : String(Number(value.toPrecision(5))));

function why(version) {
  return sheet(say("baseline.take"), (made, settle) => {
    const input = make("input", "");
    Object.assign(input, { id: "baseline-note", type: "text", maxLength: 300 });
    const label = make("label", "", say("alarm-do.reason"));
    label.htmlFor = input.id;
    made.append(make("p", "about", say("baseline.take-says", String(version))), label, input,
      make("div", "row", button(say("baseline.take"), () => settle({ version, note: input.value }), "main"), button(say("access.not-now"), () => settle(null))));
  });
}

function baseline(one) {
  const features = make("ul", "steps", ...one.features.map((feature) => make("li", "", say("baseline.feature", feature.name, number(feature.mean), number(feature.spread)))));
  const made = make("li", one.in_force ? "stands" : "",
    make("p", "words", say("baseline.version", String(one.version), one.origin === "learned" ? say("baseline.learned") : say("baseline.told"), `${day(one.made_utc)} ${clock(one.made_utc).slice(-8, -3)}`)),
    make("p", "life", [one.in_force ? say("baseline.in-force") : "", one.note ?? ""].filter((text) => text).join(" \u00b7 ")),
    make("details", "", make("summary", "", say("baseline.features", String(one.features.length))), features));
  if (!one.in_force && session?.possible && (!session.signed_in || may("set-baseline"))) {
    const take = button(say("baseline.take"), async () => {
      const asked = await why(one.version);
      if (asked !== null) {
        try {
          await act("/api/v1/baselines/take", asked);
          put("baseline-trouble", "");
          await baselines();
        } catch (wrong) {
          put("baseline-trouble", wrong instanceof TypeError ? say("access.unheard") : wrong.message);
        }
      }
    });
    take.setAttribute("aria-label", say("captures.of", say("baseline.take"), String(one.version)));
    made.append(make("div", "row acts", take));
  }

  return made;
}

async function baselines() {
  const all = await ask("/api/v1/baselines");
  put("baseline-none", all.reason !== null ? say("baseline.no-file") : all.versions.length === 0 ? say("baseline.none") : "");
  at("baseline-list").replaceChildren(...all.versions.toReversed().map(baseline));
}

const failed = (trouble) => put("baseline-trouble", say("trouble", trouble.message));
onShow("check", (seen) => seen && baselines().catch(failed));
onSession(() => baselines().catch(failed));
