import { sep } from "node:path";

const places = ["/dev", "/proc", "/sys"];

/**
 * Whether a path leads to where the system shows devices and itself as files: reading one may never end, and writing is
 * not what it seems.
 * @param path whole, links followed
 * @example isSystemPlace("/dev/zero") // true
 */
export const isSystemPlace = (path: string): boolean =>
  sep === "/" && places.some((place) => path === place || path.startsWith(`${place}/`));
