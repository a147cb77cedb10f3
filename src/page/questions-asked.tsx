import type { SheetQuestion } from "../engine/sheet-questions.ts";
import { choiceExample } from "./choice-example.ts";
import { pageNumber } from "./page-number.ts";
import { answered, answerQuestion, questions } from "./workbench.ts";

/** What the settings that stand open most are called in a question; others by their meaning. */
const titles = new Map([
  ["date_order", "In which order were dates typed?"],
  ["decimal_mark", "Which mark stands before decimals?"],
  ["serial_dates", "Which calendar do the spreadsheet's date numbers count in?"],
  ["temperature_unit", "Which unit are temperatures in?"],
  ["mass_unit", "Which unit are weights in?"],
  ["volume_unit", "Which unit are volumes in?"],
  ["percent_style", "What does a percentage without its sign mean?"],
  ["syringe_ml", "How many mL does one syringe hold?"],
  ["currency", "Which currency is the money in?"],
]);

function Choices({ question, chosen }: { question: SheetQuestion; chosen: string }) {
  const { key, choices, examples } = question;
  return (
    <div class="choices">
      {choices.map((choice) => {
        const example = choiceExample(key, choice, examples[0] ?? "");
        return (
          <button
            type="button"
            key={choice}
            class="choice"
            aria-pressed={chosen === choice}
            onClick={() => answerQuestion(key, chosen === choice ? "" : choice)}
          >
            <span>{choice}</span>
            {example === "" ? null : <span class="choice-example">{example}</span>}
          </button>
        );
      })}
    </div>
  );
}

function TypedAnswer({ question, chosen }: { question: SheetQuestion; chosen: string }) {
  const { key, unit, meaning } = question;
  const send = (event: SubmitEvent) => {
    event.preventDefault();
    const value = new FormData(event.currentTarget as HTMLFormElement).get("value");
    answerQuestion(key, typeof value === "string" ? value.trim() : "");
  };
  return (
    <form class="choices" onSubmit={send}>
      <label>
        <span class="heard">{meaning}</span>
        <input name="value" type="text" size={10} autocomplete="off" defaultValue={chosen} />
      </label>
      {unit === "" ? null : <span>{unit}</span>}
      <button type="submit">Use it</button>
    </form>
  );
}

function Question({ question }: { question: SheetQuestion }) {
  const { key, meaning, state, count, reason, expected, columns, examples } = question;
  const chosen = answered.value.get(key) ?? "";
  const cells = `${pageNumber(count)} ${count === 1 ? "cell depends" : "cells depend"} on it`;
  return (
    <li class="asked" data-setting={key}>
      <h3>
        {titles.get(key) ?? (/^(?:column|cell):|\t/.test(key) ? meaning : `${key.replaceAll("_", " ")}: ${meaning}`)}
      </h3>
      <p class="quiet">
        {state === "open" && count > 0 ? `${cells}. ` : ""}
        {columns.length > 0 && !meaning.includes(`“${columns[0]}”`)
          ? `Column${columns.length > 1 ? "s" : ""}: ${columns.join(", ")}. `
          : ""}
        {examples.length > 0 ? `Typed: ${examples.join("; ")}. ` : ""}
        {state === "open" && !key.startsWith("cell:")
          ? ""
          : `${reason.replace(/^./, (letter) => letter.toUpperCase())}.`}
        {expected === "" ? "" : ` Expected ${expected}.`}
      </p>
      {question.choices.length > 0 ? (
        <Choices question={question} chosen={chosen} />
      ) : (
        <TypedAnswer key={chosen} question={question} chosen={chosen} />
      )}
      {chosen === "" ? null : (
        <p class="given">
          Answered: {chosen}.{" "}
          <button type="button" class="small" onClick={() => answerQuestion(key, "")}>
            Take it back
          </button>
        </p>
      )}
    </li>
  );
}

/** What only the reader can settle, each with its choices; what the sheets decided themselves is folded away below. */
export function QuestionsAsked() {
  const open = questions.value.filter(({ state }) => state === "open");
  const decided = questions.value.filter(({ state }) => state === "decided");
  if (questions.value.length === 0) return null;
  const waiting = open.filter(({ key }) => !answered.value.has(key)).length;
  return (
    <section aria-labelledby="asked-title" class="block">
      <h2 id="asked-title">Questions to you</h2>
      {open.length === 0 ? <p class="quiet">The sheets leave nothing open.</p> : null}
      {waiting > 0 ? (
        <p class="quiet">Until they are answered, the cells in doubt are left out. One click cleans again.</p>
      ) : null}
      <ul class="asked-list">
        {open.map((question) => (
          <Question key={question.key} question={question} />
        ))}
      </ul>
      {decided.length > 0 ? (
        <details class="fold">
          <summary>Taken without asking ({decided.length}); change what is wrong</summary>
          <ul class="asked-list">
            {decided.map((question) => (
              <Question key={question.key} question={question} />
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}
