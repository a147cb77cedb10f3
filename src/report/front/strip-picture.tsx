import type { ComponentChildren } from "preact";
import type { Strip } from "../../analysis.ts";
import { LossRings } from "./loss-rings.tsx";
import { Cooks, Groups, Measures, Shares } from "./strip-groups.tsx";
import type { StripPlace } from "./strip-parts.tsx";
import { Amount, BestDose, Chance, Difference, Margins } from "./strip-rulers.tsx";

function contentOf(strip: Strip, place: StripPlace): ComponentChildren {
  switch (strip.kind) {
    case "difference":
      return <Difference strip={strip} place={place} />;
    case "best-dose":
      return <BestDose strip={strip} place={place} />;
    case "losses":
      return <LossRings groups={strip.groups} doses={place.doses} width={place.width} />;
    case "cooks":
      return <Cooks strip={strip} place={place} />;
    case "margins":
      return <Margins strip={strip} place={place} />;
    case "amount":
      return <Amount strip={strip} place={place} />;
    case "chance":
      return <Chance strip={strip} place={place} />;
    case "groups":
      return <Groups strip={strip} place={place} />;
    case "shares":
      return <Shares strip={strip} place={place} />;
    case "measures":
      return <Measures strip={strip} place={place} />;
  }
}

/** The height a strip takes. */
const heightOf = (strip: Strip): number =>
  strip.kind === "cooks" ? 58 : strip.kind === "groups" ? (strip.groups.length > 3 ? 60 : 54) : 54;

/** The picture beside a front row, on a ruler of its own. @param name what it shows, as a sentence with its numbers */
export function StripPicture({ strip, name, place }: { strip: Strip; name: string; place: StripPlace }) {
  const height = heightOf(strip);
  return (
    <svg
      class="strip"
      width={place.width}
      height={height}
      viewBox={`0 0 ${place.width} ${height}`}
      role="img"
      aria-label={name}
    >
      {contentOf(strip, place)}
    </svg>
  );
}
