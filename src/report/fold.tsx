import type { ComponentChildren } from "preact";

/**
 * Text that can be folded away on screen and always prints. The text stands after the fold's own element, because what
 * is inside a closed one cannot be printed.
 */
export function Fold({ summary, open, children }: { summary: string; open?: boolean; children: ComponentChildren }) {
  return (
    <>
      <details class="fold" open={open}>
        <summary>{summary}</summary>
      </details>
      <div class="fold-body">{children}</div>
    </>
  );
}
