import AxeBuilder from "@axe-core/playwright";
import type { Page } from "playwright-core";

/**
 * What axe-core finds wrong in a page (WCAG rules and its own good practice), a line each with the first place.
 * @param without parts that are left out: rows like those above them only take time, and a frame is looked at by itself
 */
export async function accessFaults(page: Page, without: ReadonlyArray<string> = []): Promise<string[]> {
  // places are only worked out for what is wrong: doing so for all that is right takes most of the time
  const tester = new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ["violations"] });
  for (const part of without) tester.exclude(part);
  const { violations } = await tester.analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}
