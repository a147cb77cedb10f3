import type { SurvivalSample } from "../../../src/statistics/time-to-event/kaplan-meier.ts";

// Freireich and others 1963, Blood 21:699-716, as printed in Gehan 1965, Biometrika 52:203-223 (from memory); + marks a time
// still in remission
const marks = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+".split(" ");

/** Weeks of remission under 6-mercaptopurine. */
export const treated: SurvivalSample = {
  times: marks.map((mark) => Number.parseInt(mark, 10)),
  events: marks.map((mark) => !mark.endsWith("+")),
};
