import type { SavedRows, SavedTextsOf } from "../report/saved-texts.tsx";

const textOf = (element: Element | null): string => element?.textContent ?? "";

/** What the page says before anything is changed: the saved book, as the reader sees it. */
export function readSavedPage(page: Document): SavedTextsOf {
  const tables = new Map<string, SavedRows>();
  for (const table of page.querySelectorAll(".question-section table")) {
    const id = table.querySelector("caption")?.id ?? "";
    const rows = [...table.querySelectorAll("tbody > tr, tfoot > tr")].map((row) => [...row.children].map(textOf));
    tables.set(id, { columns: table.querySelectorAll("thead th").length, rows });
  }
  const sentences = new Map<string, string>();
  for (const section of page.querySelectorAll<HTMLElement>(".question-section")) {
    const sentence = section.querySelector(":scope > .sentence");
    const certainty = textOf(sentence?.querySelector(".certainty") ?? null);
    sentences.set(section.dataset.question ?? "", textOf(sentence).slice(certainty.length).trim());
  }
  const pictures = new Map<string, string>();
  for (const figure of page.querySelectorAll<HTMLElement>("figure[data-chart]")) {
    pictures.set(figure.dataset.chart ?? "", figure.querySelector("img")?.getAttribute("src") ?? "");
  }
  return { tables, sentences, pictures };
}
