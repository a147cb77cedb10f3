import type { AnsweredQuestion } from "../analysis.ts";
import { certaintyOf, VerdictPicture } from "./front/verdict-mark.tsx";
import { placeOf } from "./report-facts.ts";
import { visibleText } from "./visible-text.ts";

/** A part of the report in the contents. */
export interface ContentsPart {
  title: string;
  place: string;
  answers: ReadonlyArray<AnsweredQuestion>;
  /** further places of the part */
  places?: ReadonlyArray<readonly [place: string, name: string]>;
}

/** Every question with its mark: a rail where there is room, a line that opens elsewhere. */
export const Contents = ({ parts }: { parts: ReadonlyArray<ContentsPart> }) => (
  <details class="contents">
    <summary>
      <span>Contents</span>
    </summary>
    <nav aria-label="Contents">
      {parts.map(({ title, place, answers, places = [] }) => (
        <div key={place}>
          <a class="part-name" href={`#${place}`}>
            {title}
          </a>
          <ul>
            {answers.map(({ id, name, outcome }) => (
              <li key={id}>
                <a href={`#${placeOf(id)}`} data-contents={id}>
                  <VerdictPicture certainty={certaintyOf(outcome)} />
                  <span>
                    {visibleText(name, 60)}
                    <span class="unseen">, {certaintyOf(outcome)}</span>
                  </span>
                </a>
              </li>
            ))}
            {places.map(([address, name]) => (
              <li key={address}>
                <a href={`#${address}`}>
                  <span />
                  <span>{name}</span>
                </a>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </nav>
  </details>
);
