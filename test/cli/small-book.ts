/** A harvest sheet of a few trays in two cooks. */
export function harvestSheet(trays = 16): string {
  const rows = Array.from({ length: trays }, (_, tray) => {
    const dose = tray % 2 === 0 ? 3 : 9;
    const dry = 18 + (tray % 2) * 6 + ((tray * 7) % 5) * 0.8;
    const day = String(1 + (tray % 4)).padStart(2, "0");
    return `T${String(tray + 1).padStart(3, "0")},C${1 + Math.floor(tray / 8)},${dose},2026-03-${day},2026-04-${day},good,${(dry * 8.5).toFixed(0)},${dry.toFixed(1)}`;
  });
  return `tray_id,batch,inoculum_ml,inoculated_on,harvested_on,outcome,fresh_g,dry_g\n${rows.join("\n")}\n`;
}

/** A cost sheet of two lines, with the price of the filter bag. */
export const costSheet = (bagPrice: number): string =>
  `item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per\nsorghum,ingredient,31,25,kg,380,g,tray\nfilter bag,consumable,${bagPrice},100,each,1,each,tray\n`;
