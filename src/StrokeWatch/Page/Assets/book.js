// The view "Book": the machine book, what was counted, what is to be done, and forms to write into it.
import { ask, at, clock, day, fixed, make, put, say } from "./words.js";
import { act, button, may, onSession, session } from "./access.js";
import { reveal, whileSeen } from "./views.js";

const KINDS = ["note", "leaf-set", "air-gap", "bolt-torque", "coil", "cleaning", "inspection"];
const NEEDS = { "leaf-set": "rear", "air-gap": "gap", "bolt-torque": "torque_nm" };
const MOST = 200;
let kind = "note";

const kindWords = (one) => say(`book-kind.${one}`);
const open = () => session?.possible && !session.signed_in;
const kinds = () => KINDS.filter((one) => open() || (one === "note" ? may("note") : may("set-book")));
const unheard = (wrong) => (wrong instanceof TypeError ? say("access.unheard") : wrong.message);

function field(id, text, hint, type = "text") {
  const input = make("input", "");
  Object.assign(input, { id, type, maxLength: 1000, autocomplete: "off" });
  const label = make("label", "", text);
  label.htmlFor = id;
  const note = make("p", "note", hint);
  note.id = `${id}-hint`;
  input.setAttribute("aria-describedby", note.id);
  return [label, input, ...(hint === "" ? [] : [note])];
}

const options = (values) => values.map((one) => {
  const option = make("option", "", kindWords(one));
  option.value = one;
  return option;
});

function choice(id, text, values, value, chosen) {
  const select = make("select", "", ...options(values));
  select.id = id;
  select.value = value;
  select.addEventListener("change", () => chosen(select.value));
  const label = make("label", "", text);
  label.htmlFor = id;
  return [label, select];
}

const parts = () => (kind === "leaf-set" ? field("book-rear", say("book.rear"), say("book.rear-hint"))
  : kind === "air-gap" ? field("book-gap", say("book.gap"), say("book.gap-hint"))
  : kind === "bolt-torque" ? field("book-torque", say("book.torque"), say("book.torque-hint"), "number") : []);

function form() {
  const may = kinds();
  if (!session?.possible || may.length === 0) {
    at("book-form").replaceChildren(make("p", "note", session?.possible ? say("book.not-yours") : say("book.read-only")));
    return;
  }

  kind = may.includes(kind) ? kind : may[0];
  const trouble = make("p", "trouble");
  trouble.setAttribute("role", "alert");
  const said = make("p", "said");
  said.setAttribute("role", "status");
  const go = make("button", "main", say("book.do"));
  const needed = parts();
  const text = field("book-text", kind === "note" ? say("book.note") : say("book.more"), "");
  const made = make("form", "typed", ...choice("book-kind", say("book.about"), may, kind, (one) => {
    kind = one;
    form();
    at("book-kind").focus();
  }), kind === "note" ? null : make("p", "caution", say("session.lock-out")), ...needed, ...text, go, trouble, said);
  made.addEventListener("submit", async (event) => {
    event.preventDefault();
    go.disabled = true;
    try {
      const body = kind === "note" ? {} : { kind };
      const need = NEEDS[kind];
      if (need !== undefined && needed[1].value.trim() !== "") {
        body[need] = need === "torque_nm" ? Number(needed[1].value) : needed[1].value.trim();
      }

      if (text[1].value.trim() !== "") {
        body.text = text[1].value.trim();
      }

      const told = await act(kind === "note" ? "/api/v1/book/note" : "/api/v1/book/set", body);
      put(trouble, "");
      if (told !== null) {
        [needed[1], text[1]].filter((one) => one !== undefined).forEach((one) => { one.value = ""; });
        put(said, say("book.done", clock(told.utc)));
        await look();
      }
    } catch (wrong) {
      put(said, "");
      put(trouble, unheard(wrong));
    } finally {
      go.disabled = false;
    }
  });
  at("book-form").replaceChildren(made);
}

function remind() {
  if (!session?.possible || (session.signed_in && !may("set-book"))) {
    at("book-remind").replaceChildren();
    return;
  }

  const trouble = make("p", "trouble");
  trouble.setAttribute("role", "alert");
  const about = choice("remind-kind", say("book.about"), KINDS.slice(1), "inspection", () => {});
  const hours = field("remind-hours", say("book.every"), "", "number");
  const send = async (body) => {
    try {
      await act("/api/v1/book/remind", { kind: about[1].value, ...body });
      put(trouble, "");
      await look();
    } catch (wrong) {
      put(trouble, unheard(wrong));
    }
  };
  const made = make("form", "typed", ...about, ...hours,
    make("div", "row acts", make("button", "main", say("book.remind")), button(say("book.remind-off"), () => send({ off: true }))), trouble);
  made.addEventListener("submit", (event) => {
    event.preventDefault();
    send(hours[1].value.trim() === "" ? {} : { every_h: Number(hours[1].value) });
  });
  at("book-remind").replaceChildren(make("details", "", make("summary", "", say("book.remind")), made));
}

const count = (n) => (n === null ? "\u2013" : String(Math.floor(n)).replace(/\B(?=(\d{3})+$)/g, "\u202f"));

function running(one) {
  if (one.reason !== null) {
    return make("p", "", say("book.nothing-counted"));
  }

  const list = make("dl", "figures");
  for (const [name, value] of [
    [say("book.hours"), `${fixed(one.running_h, 1)} ${say("unit.h")}`], [say("book.cycles"), count(one.cycles)], [say("book.starts"), count(one.starts)],
    [say("book.outside"), `${fixed(one.outside_band_h, 1)} ${say("unit.h")}`], [say("book.since"), day(one.since)],
  ]) {
    list.append(make("div", "", make("dt", "", name), make("dd", "", value)));
  }

  return list;
}

// How near a reminder is stands in words before it.
function reminder(one) {
  const left = [one.left_h === null ? "" : (one.left_h > 0 ? say("book.left-h", fixed(one.left_h, 1)) : say("book.over-h", fixed(-one.left_h, 1))),
    one.left_cycles === null ? "" : (one.left_cycles > 0 ? say("book.left-cycles", count(one.left_cycles)) : say("book.over-cycles", count(-one.left_cycles)))].filter((text) => text).join(", ");
  return make("li", one.state === "due" ? "stands high" : one.state === "soon" ? "stands" : "",
    make("p", "words", say("captures.of", kindWords(one.kind), say(`remind.${one.state}`))), make("p", "life", left));
}

const entry = (one) => make("li", "",
  make("p", "words", say("captures.of", kindWords(one.kind), one.words)),
  make("p", "life", [`${day(one.date)} ${clock(one.date).slice(-8, -3)}`, one.who ?? say("session.nobody"), one.at_h === null ? "" : say("book.at", fixed(one.at_h, 1))].filter((text) => text).join(" \u00b7 ")));

async function look() {
  const { kept, book } = await ask("/api/v1/book");
  put("book-trouble", "");
  if (kept) {
    reveal("book");
  }

  const [entries, reminders] = [book?.entries ?? [], book?.reminders ?? []];
  at("book-running").replaceChildren(book === null ? make("p", "", say("book.nothing-counted")) : running(book.running));
  put("book-entries-none", !kept ? say("book.none-kept") : entries.length === 0 ? say("book.empty") : entries.length > MOST ? say("book.newest", String(MOST)) : "");
  put("book-reminders-none", reminders.length === 0 ? say("book.no-reminder") : "");
  at("book-reminders").replaceChildren(...reminders.map(reminder));
  at("book-entries").replaceChildren(...entries.slice(-MOST).reverse().map(entry));
}

const failed = (trouble) => put("book-trouble", say("trouble", trouble.message));
whileSeen("book", 10, look, failed);
look().catch(failed);
onSession(() => {
  const [select, may] = [at("book-kind"), kinds()];
  if (select !== null && session.possible && may.includes(kind)) {
    // Signing in on the way to writing something down must not lose what is typed.
    select.replaceChildren(...options(may));
    select.value = kind;
  } else {
    form();
  }

  if (at("remind-kind") === null || (session.signed_in && !may.includes("inspection"))) {
    remind();
  }
});
