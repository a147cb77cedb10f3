import type { ComponentChildren } from "preact";

interface LiveSlotProps {
  name: string;
  isLive: boolean;
  children: ComponentChildren;
}

/** A place where a script puts cells that can be changed; what stands there is still what is printed. */
export function LiveSlot({ name, isLive, children }: LiveSlotProps) {
  if (!isLive) return <>{children}</>;
  return (
    <div class="live-slot" data-slot={name}>
      <div class="as-written">{children}</div>
    </div>
  );
}
