/** What a careful designer would not let pass, looked for in a page as it stands. */
export interface PageFaults {
  /** two labels of one picture that lie on each other */
  overlaps: string[];
  /** labels that leave their picture */
  outside: string[];
  /** words that a narrow column breaks in two */
  broken: string[];
  /** text that is cut off */
  cut: string[];
}

/**
 * Runs inside the page: looks at what is in sight, so open what is folded before. Rows of long tables after the tenth
 * look like the ones before and are passed over.
 */
export function pageFaults(): PageFaults {
  const seen = (element: Element): boolean => element.checkVisibility() && element.getBoundingClientRect().width > 0;
  const overlaps: string[] = [];
  const outside: string[] = [];
  const finding = (svg: Element): string =>
    (svg.getAttribute("aria-label") ?? svg.parentElement?.className ?? "").toString().slice(0, 60);
  for (const svg of document.querySelectorAll("main svg")) {
    if (!seen(svg)) continue;
    const frame = svg.getBoundingClientRect();
    const labels = [...svg.querySelectorAll("text")]
      .filter((label) => label.textContent.trim() !== "")
      .map((label) => ({ said: label.textContent, box: label.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0);
    for (const [at, { said, box }] of labels.entries()) {
      if (
        box.left < frame.left - 1.5 ||
        box.right > frame.right + 1.5 ||
        box.top < frame.top - 2 ||
        box.bottom > frame.bottom + 3
      )
        outside.push(`“${said}” in ${finding(svg)}`);
      for (const other of labels.slice(at + 1)) {
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        // the box of a label holds room above and below its letters
        const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
        // a label over its own halo is one
        const isHalo =
          said === other.said && Math.abs(box.left - other.box.left) < 1 && Math.abs(box.top - other.box.top) < 1;
        if (!isHalo && across > 1 && down > 0.3 * Math.min(box.height, other.box.height))
          overlaps.push(`“${said}” on “${other.said}” in ${finding(svg)}`);
      }
    }
  }
  const broken: string[] = [];
  const words = document.createRange();
  for (const cell of document.querySelectorAll(
    "main :is(th, td, caption, h1, h2, h3, h4, dt, dd, summary, figcaption, label, .front *, .few *)",
  )) {
    if (cell.matches("tr:nth-child(n+11) *, li:nth-child(n+31) *") || !seen(cell)) continue;
    for (const node of cell.childNodes) {
      if (node.nodeType !== Node.TEXT_NODE) continue;
      for (const { 0: word, index } of node.textContent!.matchAll(/[\p{L}\p{N}€%]+(?:[.,]\p{N}+)*/gu)) {
        // a very long word, or one with numbers and letters mixed, is a name and may break
        if (word.length > 18) continue;
        words.setStart(node, index);
        words.setEnd(node, index + word.length);
        const lines = new Set(
          [...words.getClientRects()].filter(({ width }) => width > 0).map(({ top }) => Math.round(top)),
        );
        if (lines.size > 1) broken.push(`“${word}” of “${cell.textContent.trim().slice(0, 40)}”`);
      }
    }
  }
  const cut = [...document.querySelectorAll("main *:not(svg *), nav *:not(svg *)")]
    .filter((element) => {
      const { overflowX, textOverflow, clipPath } = getComputedStyle(element);
      return (
        clipPath === "none" &&
        // a cell of a sheet opens where it is chosen
        !element.matches(".grid-box *, tr:nth-child(n+11) *") &&
        (overflowX === "hidden" || overflowX === "clip" || textOverflow === "ellipsis") &&
        element.scrollWidth > element.clientWidth + 1 &&
        element.clientWidth > 1 &&
        seen(element)
      );
    })
    .map((element) => `${element.localName}.${element.className}: ${element.textContent.trim().slice(0, 50)}`);
  return { overlaps: [...new Set(overlaps)], outside: [...new Set(outside)], broken: [...new Set(broken)], cut };
}
