import { doseStyle } from "../charts/dose-ramp.ts";
import { frontStyle } from "./style-front.ts";
import { pageStyle } from "./style-page.ts";
import { printStyle } from "./style-print.ts";
import { questionStyle } from "./style-questions.ts";
import { sheetStyle } from "./style-sheet.ts";

/**
 * The report's whole style. It holds none of the characters that markup escapes (quotation mark, ampersand, less-than), so
 * it can stand in the page as it is.
 */
export const stylesheet = [pageStyle, doseStyle, frontStyle, questionStyle, sheetStyle, printStyle]
  .join("\n")
  .replace(/\s*\n\s*/g, "\n")
  .trim();
