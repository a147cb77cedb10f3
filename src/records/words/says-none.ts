import { fold } from "./fold.ts";
import { phrasesOf } from "./languages.ts";

const nothing = new Set([...phrasesOf(({ no }) => no), "nothing", "without"]);

/** Whether what was typed of an ingredient says that there was none: "none", "keine", "0". */
export const saysNone = (text: string): boolean => nothing.has(fold(text));
