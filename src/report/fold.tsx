import type { ComponentChildren } from "preact";

/** Text folded away under a line that says what is in it; "print everything" opens it on paper. */
export function Fold({ summary, open, children }: { summary: string; open?: boolean; children: ComponentChildren }) {
  return (
    <details class="fold" open={open}>
      <summary>{summary}</summary>
      <div class="fold-body">{children}</div>
    </details>
  );
}
