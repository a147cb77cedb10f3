import type { Page } from "playwright-core";

/** Waits until every answer has followed. */
export const settled = (page: Page): Promise<void> =>
  page.locator(".live-state", { hasText: /^\s*All answers/ }).waitFor({ state: "attached" });
