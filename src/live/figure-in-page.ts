/** The figure of a chart that something on the page belongs to. */
export const figureOf = (target: EventTarget | null): HTMLElement | undefined =>
  (target instanceof Element ? target.closest<HTMLElement>("figure[data-chart]") : null) ?? undefined;

/** The drawing of a figure that is in sight: it has one for each width. */
export const inSight = (figure: HTMLElement): SVGSVGElement | undefined =>
  [...figure.querySelectorAll<SVGSVGElement>(".figure-picture > svg")].find(
    (picture) => picture.getBoundingClientRect().width > 0,
  );

/** Whether something on the page is part of a chart's drawing. */
export const isOnPicture = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest(".figure-picture > svg") !== null;
