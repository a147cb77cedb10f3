/** A figure, and what it was in the saved book where it has changed. */
export function WasNow({ was, now }: { was: string | undefined; now: string }) {
  if (was === undefined || was === now) return <>{now}</>;
  return (
    <span class="moved">
      <s>
        <span class="unseen">was </span>
        {was}
      </s>{" "}
      <span aria-hidden="true">→</span> <strong>{now}</strong>
    </span>
  );
}
