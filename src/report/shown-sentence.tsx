import type { ComponentChildren } from "preact";
import type { Sentence } from "../analysis.ts";
import { type NumberSettings, sentenceText } from "./format-quantity.ts";
import { visibleText } from "./visible-text.ts";

/** a rate ("per g"), signed money ("−€0.56"), and names with a hyphen and a number ("C2-015") */
const pieces =
  /(\bper (?:g|kg|mL|L|oz|lb)\b|[−+]\p{Sc}[\d.,\u00a0]*\d|(?<![\p{L}\p{N}-])(?=[\p{L}-]*\d)[\p{L}\p{N}]+(?:-[\p{L}\p{N}]+)+(?![\p{L}\p{N}-]))/u;
/** letters that fit any line */
const longestPiece = 14;

/**
 * Text in which rates, signed money and hyphened names stay on one line: browsers break after a minus sign and after a hyphen.
 * The text itself stays as it is, to be found and copied.
 */
export function unbroken(text: string): ComponentChildren {
  const parts = text.split(pieces);
  if (parts.length === 1) return text;
  return parts.map((part, index) =>
    index % 2 === 1 && part.length <= longestPiece ? (
      <span class="whole" key={index}>
        {part}
      </span>
    ) : (
      part
    ),
  );
}

/** A sentence of an answer as it stands on the page. @param most characters kept */
export const shownSentence = (sentence: Sentence, settings: NumberSettings, most?: number): ComponentChildren =>
  unbroken(visibleText(sentenceText(sentence, settings), most));
