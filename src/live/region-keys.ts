/** The parts of the page that F6 goes through, in its order. */
const regions = [".rail", ".front", "#sheets", ".live-bar"];

const stops = "a[href], button:not(:disabled), input, select, summary, [tabindex='0']";

const firstStop = (region: Element): HTMLElement | undefined =>
  [...region.querySelectorAll<HTMLElement>(stops)].find((stop) => stop.checkVisibility());

/**
 * Goes to the next part of the page, with Shift to the one before: contents, front, sheets, changes. F6 is what desktop
 * programs use for that (common practice, no source).
 */
function goToNextRegion(isBack: boolean): void {
  const found = regions.flatMap((region) => document.querySelector(region) ?? []);
  const at = found.findIndex((region) => region.contains(document.activeElement));
  // from between two parts, the one that comes next in the page
  const following = (region: Element) =>
    document.activeElement !== null &&
    (document.activeElement.compareDocumentPosition(region) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
  const start =
    at >= 0 ? at : isBack ? found.filter((region) => !following(region)).length : found.findIndex(following) - 1;
  for (let step = 1; step <= found.length; step++) {
    const place = start + (isBack ? -step : step);
    const stop = firstStop(found[((place % found.length) + found.length) % found.length]!);
    if (stop === undefined) continue;
    stop.focus();
    return;
  }
}

/** Hears F6, and Ctrl or Command with S. @param save saves what was changed; false where there is nothing to save */
export function startRegionKeys(save: () => boolean): void {
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.altKey) return;
    const isControl = event.ctrlKey || event.metaKey;
    if (event.key === "F6" && !isControl) {
      event.preventDefault();
      goToNextRegion(event.shiftKey);
    } else if (isControl && !event.shiftKey && event.key.toLowerCase() === "s" && save()) event.preventDefault();
  });
}
