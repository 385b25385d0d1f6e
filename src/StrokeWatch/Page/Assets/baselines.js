// Under "What to check": what is healthy. The versions there are, one taken again, and a form to tell what was measured at commissioning.
import { ask, at, clock, day, make, put, say } from "./words.js";
import { onShow } from "./views.js";
import { act, button, may, onSession, session, sheet } from "./access.js";

// Asked first, for a person mostly has these from commissioning; any other may be added.
const FIRST = ["stroke_mm", "natural_frequency_hz", "damping_ratio"];
const MOST_ROWS = 40;
const MM_PER_IN = 25.4;
let names = [];
let rows = 0;

const yours = () => session?.possible && (!session.signed_in || may("set-baseline"));

const words = (name) => say(`feature.${name.replaceAll("_", "-")}`);

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
  const features = make("ul", "steps", ...one.features.map((feature) => make("li", "", say("baseline.feature", words(feature.name), number(feature.mean), number(feature.spread)))));
  const made = make("li", one.in_force ? "stands" : "",
    make("p", "words", say("baseline.version", String(one.version), one.origin === "learned" ? say("baseline.learned") : say("baseline.told"), `${day(one.made_utc)} ${clock(one.made_utc).slice(-8, -3)}`)),
    make("p", "life", [one.in_force ? say("baseline.in-force") : "", one.note ?? ""].filter((text) => text).join(" \u00b7 ")),
    make("details", "", make("summary", "", say("baseline.features", String(one.features.length))), features));
  if (!one.in_force && yours()) {
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

// A decimal comma is what half the world types; the API takes points.
const typed = (input) => input.value.trim().replace(",", ".").replaceAll(" ", "_");

function entry(id, text, hint) {
  const input = make("input", "");
  Object.assign(input, { id, type: "text", inputMode: "decimal", autocomplete: "off", maxLength: 30 });
  input.setAttribute("aria-describedby", hint);
  const label = make("label", "", text);
  label.htmlFor = id;
  return [make("div", "", label, input), input];
}

function row(name) {
  const id = `told-${rows++}`;
  const feature = make("select", "", ...["", ...names].map((one) => {
    const option = make("option", "", one === "" ? say("baseline.choose") : words(one));
    option.value = one;
    return option;
  }));
  feature.id = id;
  feature.value = name;
  const label = make("label", "", say("baseline.what"));
  label.htmlFor = id;
  const inches = make("p", "note");
  inches.id = `${id}-inches`;
  const [mean, spread] = [entry(`${id}-mean`, say("baseline.mean"), inches.id), entry(`${id}-spread`, say("baseline.spread"), "told-spread-hint")];
  const write = () => {
    const value = Number(typed(mean[1]));
    put(inches, feature.value.endsWith("_mm") && mean[1].value.trim() !== "" && Number.isFinite(value) ? say("baseline.inches", (value / MM_PER_IN).toFixed(4)) : "");
  };
  feature.addEventListener("change", write);
  mean[1].addEventListener("input", write);
  const made = make("fieldset", "told", make("legend", "unseen", say("baseline.one")), make("div", "", label, feature), mean[0], spread[0], inches);
  made.read = () => ({ name: feature.value, mean: typed(mean[1]), spread: typed(spread[1]) });
  made.clear = () => [mean[1], spread[1]].forEach((input) => { input.value = ""; });
  made.write = write;
  return made;
}

/** Gives the features as they are sent, or throws what a row lacks; rows in which nothing is typed are left out. */
function told(list) {
  const full = list.map((one) => one.read()).filter((one) => one.mean !== "" || one.spread !== "");
  if (full.length === 0) {
    throw new Error(say("baseline.nothing-told"));
  }

  const half = full.find((one) => one.name === "" || [one.mean, one.spread].some((text) => text === "" || !Number.isFinite(Number(text))));
  if (half !== undefined) {
    throw new Error(half.name === "" ? say("baseline.no-name") : say("baseline.half", words(half.name)));
  }

  const twice = full.find((one, i) => full.findIndex((other) => other.name === one.name) < i);
  if (twice !== undefined) {
    throw new Error(say("baseline.twice", words(twice.name)));
  }

  return full.map((one) => `${one.name}=${one.mean},${one.spread}`).join(" ");
}

function form(open) {
  if (!open || at("told-form") !== null) {
    // What is being typed stays while others sign in and out; who may not is refused by the answer.
    at("baseline-tell").hidden = !open;
    return;
  }

  const list = make("div", "", ...FIRST.filter((name) => names.includes(name)).map(row));
  const more = button(say("baseline.more"), () => {
    const made = row("");
    list.append(made);
    made.querySelector("select").focus();
    more.disabled = list.children.length >= MOST_ROWS;
  });
  const trouble = make("p", "trouble");
  trouble.setAttribute("role", "alert");
  const said = make("p", "said");
  said.setAttribute("role", "status");
  const note = make("input", "");
  Object.assign(note, { id: "told-note", type: "text", maxLength: 200, autocomplete: "off" });
  const label = make("label", "", say("baseline.note"));
  label.htmlFor = note.id;
  const hint = make("p", "note", say("baseline.spread-hint"));
  hint.id = "told-spread-hint";
  const go = make("button", "main", say("baseline.tell"));
  const made = make("form", "typed", make("p", "", say("baseline.tell-says")), hint, list, make("div", "row acts", more), label, note, go, trouble, said);
  made.id = "told-form";
  made.noValidate = true;
  made.addEventListener("submit", async (event) => {
    event.preventDefault();
    go.disabled = true;
    put(said, "");
    try {
      const features = told([...list.children]);
      const answer = await act("/api/v1/baselines/tell", note.value.trim() === "" ? { features } : { features, note: note.value.trim() });
      put(trouble, "");
      if (answer !== null) {
        [...list.children].forEach((one) => {
          one.clear();
          one.write();
        });
        note.value = "";
        put(said, say("baseline.done", String(answer.baseline.version)));
        await baselines();
      }
    } catch (wrong) {
      put(trouble, wrong instanceof TypeError ? say("access.unheard") : wrong.message);
    } finally {
      go.disabled = false;
    }
  });
  at("baseline-tell").replaceChildren(make("details", "", make("summary", "", say("baseline.tell-title")), made));
  at("baseline-tell").hidden = false;
}

async function baselines() {
  const all = await ask("/api/v1/baselines");
  names = all.may_hold;
  put("baseline-none", all.reason !== null ? say("baseline.no-file") : all.versions.length === 0 ? say("baseline.none") : "");
  at("baseline-list").replaceChildren(...all.versions.toReversed().map(baseline));
  form(all.reason === null && yours());
}

const failed = (trouble) => put("baseline-trouble", say("trouble", trouble.message));
onShow("check", (seen) => seen && baselines().catch(failed));
onSession(() => baselines().catch(failed));
