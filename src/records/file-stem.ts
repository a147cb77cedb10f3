/** The name of a file without its folders: "2026-spring.csv" of "harvests/2026-spring.csv". */
export const fileName = (path: string): string => path.slice(path.lastIndexOf("/") + 1);

/** The same without its ending: "2026-spring". */
export const fileStem = (path: string): string => fileName(path).replace(/\.[^.]+$/, "");
