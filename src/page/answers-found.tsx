import { VerdictMark } from "../report/front/verdict-mark.tsx";
import { answers, progress } from "./workbench.ts";

/** The headline answers as they come in; the report below says how each was found. */
export function AnswersFound() {
  const headlines = answers.value.filter(({ headline }) => headline);
  if (headlines.length === 0 && progress.value.state !== "working") return null;
  return (
    <section aria-labelledby="found-title" class="block">
      <h2 id="found-title">Answers</h2>
      {headlines.length === 0 ? <p class="quiet">They appear here one by one.</p> : null}
      <ol class="answers-found">
        {headlines.map(({ question, name, figure, certainty, text, wouldSettle }) => (
          <li key={question}>
            <VerdictMark certainty={certainty} />
            <div>
              <p class="question">{name}</p>
              <p class="sentence">
                {figure === "" ? null : <strong>{figure} </strong>}
                {text}
              </p>
              {wouldSettle === "" ? null : <p class="settle">{wouldSettle}</p>}
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}
