/** The name of a file without its folders and its ending: "2026-spring" of "harvests/2026-spring.csv". */
export const fileStem = (path: string): string =>
  path
    .split("/")
    .at(-1)!
    .replace(/\.[^.]+$/, "");
