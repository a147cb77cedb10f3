/** The card beside a mark that tells what the mark stands for. There is one in the page. */
export class TrayCard {
  private readonly card = document.createElement("div");

  constructor() {
    this.card.className = "tray-card";
    this.card.hidden = true;
    document.body.append(this.card);
  }

  /** @param lines what is reported, labels first; no card is shown for none. @param x place on the screen, as y */
  show(lines: ReadonlyArray<[label: string, text: string]>, hint: string, x: number, y: number): void {
    if (lines.length === 0) return;
    const last = document.createElement("p");
    last.className = "hint";
    last.textContent = hint;
    this.card.replaceChildren(...lines.map(lineOf), last);
    this.card.hidden = false;
    const width = Math.min(260, innerWidth - 16);
    this.card.style.width = `${width}px`;
    this.card.style.left = `${Math.max(8, Math.min(x + 12, innerWidth - width - 8)) + scrollX}px`;
    this.card.style.top = `${y + 14 + scrollY}px`;
  }

  hide(): void {
    this.card.hidden = true;
  }
}

function lineOf([label, text]: [label: string, text: string]): HTMLElement {
  const line = document.createElement("p");
  const name = document.createElement("span");
  name.textContent = `${label} `;
  line.append(name, text);
  return line;
}
