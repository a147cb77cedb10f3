import { signal } from "@preact/signals";
import { said } from "./model/workbook.ts";

/** The name of what is picked out, "dose-3" or "cook-C2"; "" while nothing is. */
const picked = signal("");

/** Fades everything but what is picked, in every chart, table and the wall; called again after something was put in. */
export function showPicked(): void {
  for (const mark of document.querySelectorAll(".pick")) {
    const isOut = picked.value !== "" && isOfKind(mark) && !mark.classList.contains(picked.value);
    mark.classList.toggle("faded", isOut);
  }
  for (const button of document.querySelectorAll<HTMLElement>("[data-pick]"))
    button.setAttribute("aria-pressed", String(button.dataset.pick === picked.value));
}

/** A mark fades only where it says what kind of thing it is of: a dose, a cook, a product. */
function isOfKind(mark: Element): boolean {
  const kind = picked.value.slice(0, picked.value.indexOf("-") + 1);
  return [...mark.classList].some((name) => name.startsWith(kind) && !name.endsWith("-letters"));
}

/** Picks something out, or lets it go where it was picked already. @returns whether it is picked now */
export function pickOut(name: string, what: string): boolean {
  picked.value = picked.value === name ? "" : name;
  showPicked();
  said.value = picked.value === "" ? "All trays are shown." : `${what} is picked out; Escape shows all.`;
  return picked.value !== "";
}

/** Shows all again. */
export function letGo(): void {
  if (picked.value === "") return;
  picked.value = "";
  showPicked();
  said.value = "All trays are shown.";
}

/** Buttons that pick out, and Escape. @param onPick called with the name that is picked out, undefined once none is */
export function startPicking(onPick: (name: string | undefined, what: string) => void): void {
  document.addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest<HTMLElement>("[data-pick]") : null;
    if (button === null) return;
    const name = button.dataset.pick ?? "";
    const what = (button.textContent ?? "").trim();
    onPick(pickOut(name, what) ? name : undefined, what);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || event.defaultPrevented || event.target instanceof HTMLInputElement) return;
    letGo();
    onPick(undefined, "");
  });
}
