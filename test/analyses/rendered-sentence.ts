import type { Sentence } from "../../src/analysis.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";

/** A sentence as the report prints it; it throws on a number that is none. */
export const renderedSentence = (sentence: Sentence): string => sentenceText(sentence, defaultSettings);
