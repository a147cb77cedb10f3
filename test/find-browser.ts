import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

const names = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome"];

/** The browser found on the PATH, or in CHROMIUM_PATH. */
export function findBrowser(): string | undefined {
  const places = (process.env.PATH ?? "").split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
  return [process.env.CHROMIUM_PATH, ...places].find((place) => {
    if (!place) return false;
    try {
      accessSync(place, constants.X_OK);
      return true;
    } catch {
      return false; // not there, or not ours to run: look further
    }
  });
}
