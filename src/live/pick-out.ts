import { said } from "./model/workbook.ts";

/** the name of what is picked out: "dose-3", "cook-C2"; "" while nothing is */
let pickedName = "";
let words = "";

/** Fades everything but what is picked, in every chart, table and the wall; called again after something was put in. */
export function showPicked(): void {
  for (const mark of document.querySelectorAll(".pick")) {
    const isOut = pickedName !== "" && isOfKind(mark) && !mark.classList.contains(pickedName);
    mark.classList.toggle("faded", isOut);
  }
  for (const button of document.querySelectorAll<HTMLElement>("[data-pick]"))
    button.setAttribute("aria-pressed", String(button.dataset.pick === pickedName));
}

/** A mark fades only where it says what kind of thing it is of: a dose, a cook, a product. */
function isOfKind(mark: Element): boolean {
  const kind = pickedName.slice(0, pickedName.indexOf("-") + 1);
  return [...mark.classList].some((name) => name.startsWith(kind) && !name.endsWith("-letters"));
}

/** Picks something out, or lets it go where it was picked already. @returns whether it is picked now */
export function pickOut(name: string, what: string): boolean {
  pickedName = pickedName === name ? "" : name;
  words = what;
  showPicked();
  said.value = pickedName === "" ? "All trays are shown." : `${words} is picked out; Escape shows all.`;
  return pickedName !== "";
}

/** Shows all again. */
export function letGo(): void {
  if (pickedName === "") return;
  pickedName = "";
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
