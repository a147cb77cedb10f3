import type { SavedRows, SavedTextsOf } from "../report/saved-texts.tsx";

const textOf = (element: Element | null): string => element?.textContent ?? "";

/** What the page says before anything is changed: the saved book, as the reader sees it. */
export function readSavedPage(page: Document): SavedTextsOf {
  const tables = new Map<string, SavedRows>();
  for (const table of page.querySelectorAll(".question .sheet table")) {
    const id = table.querySelector("caption")?.id ?? "";
    const rows = [...table.querySelectorAll("tbody > tr, tfoot > tr")].map((row) => [...row.children].map(textOf));
    tables.set(id, { columns: table.querySelectorAll("thead th").length, rows });
  }
  const sentences = new Map<string, string>();
  const figures = new Map<string, string>();
  const verdicts = new Map<string, string>();
  for (const question of page.querySelectorAll<HTMLElement>(".question")) {
    const id = question.dataset.question ?? "";
    sentences.set(id, textOf(question.querySelector(":scope > .sentence, :scope > .in > .sentence")));
    verdicts.set(id, textOf(question.querySelector(":scope > .top > .verdict, :scope > summary > .verdict")));
    const figure = question.querySelector(":scope > summary > .mid > .large");
    if (figure !== null) figures.set(id, textOf(figure));
  }
  for (const row of page.querySelectorAll<HTMLElement>("[data-front]"))
    figures.set(row.dataset.front ?? "", textOf(row.querySelector(".big")));
  return { tables, sentences, figures, verdicts };
}
