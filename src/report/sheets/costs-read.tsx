import type { CostLine } from "../../records/cost-line.ts";
import type { Product } from "../../records/product.ts";
import { displayUnit, displayValue } from "../display-unit.ts";
import { formatQuantity, type NumberSettings } from "../format-quantity.ts";
import { SheetTable } from "./sheet-table.tsx";

const mostLines = 500;

/** What a cost line says beyond price and amount. */
function costRemarks(line: CostLine, settings: NumberSettings): string {
  const share = (value: number) => formatQuantity({ value, unit: "share" }, settings);
  return [
    line.uses === undefined ? "" : `lasts ${line.uses} uses`,
    line.lifeYears === undefined ? "" : `lasts ${line.lifeYears} years`,
    line.breakage === undefined || line.breakage === 0 ? "" : `${share(line.breakage)} break in each use`,
    line.expandsToJars === undefined ? "" : `makes ${line.expandsToJars} jars`,
    line.watts === undefined ? "" : `${line.watts} W for ${line.hours ?? 0} h at ${share(line.duty ?? 1)}`,
    line.ownerLabour ? "own time" : "",
    line.onlyWhereColumn === undefined ? "" : `only where ${line.onlyWhereColumn} is ${line.onlyWhereValue ?? ""}`,
    line.fromDate === undefined ? "" : `from ${line.fromDate}`,
    line.note ?? "",
  ]
    .filter((part) => part !== "")
    .join("; ");
}

/** Digits that show a recorded number as it was typed, up to six. */
const recordedDigits = (value: number): number =>
  Math.max(1, String(Number(value.toPrecision(6))).replace(/^-?0\.0*|[.-]/g, "").length);

function costRow(line: CostLine, settings: NumberSettings): string[] {
  const unit = line.packUnit === "each" ? "factor" : line.packUnit;
  const amount = (value: number) => {
    const digits = recordedDigits(displayValue(value, displayUnit(unit, settings, value)));
    return formatQuantity({ value, unit, digits }, settings);
  };
  return [
    line.item,
    line.kind,
    formatQuantity({ value: line.packPrice, unit: "money" }, settings),
    amount(line.packSize),
    amount(line.amount),
    line.per,
    costRemarks(line, settings),
  ];
}

function productRow(product: Product, settings: NumberSettings): string[] {
  const money = (value: number) => formatQuantity({ value, unit: "money" }, settings);
  const share = (value: number) => formatQuantity({ value, unit: "share" }, settings);
  return [
    product.product,
    product.form,
    product.channel,
    formatQuantity({ value: product.grams, unit: "g" }, settings),
    product.currentPrice === undefined ? "" : money(product.currentPrice),
    `${share(product.feeFraction)} + ${money(product.feeFixed)}`,
    money(product.packagingCost),
    money(product.shippingCost),
    product.targetMargin === undefined ? "" : share(product.targetMargin),
  ];
}

interface CostsReadProps {
  costLines?: ReadonlyArray<CostLine>;
  products?: ReadonlyArray<Product>;
  settings: NumberSettings;
}

/** The cost lines and products as they were read, behind every sum of money in the answers. */
export function CostsRead({ costLines, products, settings }: CostsReadProps) {
  return (
    <>
      {costLines === undefined ? (
        <p>The book has no costs.csv, so nothing is said about cost.</p>
      ) : (
        <SheetTable
          id="costs-lines"
          caption="Cost lines as they were read"
          columns={[
            { label: "Item" },
            { label: "Kind" },
            { label: "Price of a pack", numeric: true },
            { label: "A pack holds", numeric: true },
            { label: "One use", numeric: true },
            { label: "Per" },
            { label: "Remarks", wide: true },
          ]}
          rows={costLines.slice(0, mostLines).map((line) => costRow(line, settings))}
          note={
            costLines.length > mostLines ? `The first ${mostLines} of ${costLines.length} lines are shown.` : undefined
          }
        />
      )}
      {products === undefined ? null : (
        <SheetTable
          id="costs-products"
          caption="Products as they were read"
          columns={[
            { label: "Product" },
            { label: "Form" },
            { label: "Channel" },
            { label: "Holds", numeric: true },
            { label: "Price now", numeric: true },
            { label: "Fees", numeric: true },
            { label: "Packaging", numeric: true },
            { label: "Sending", numeric: true },
            { label: "Margin wanted", numeric: true },
          ]}
          rows={products.slice(0, mostLines).map((product) => productRow(product, settings))}
          note={
            products.length > mostLines ? `The first ${mostLines} of ${products.length} products are shown.` : undefined
          }
        />
      )}
    </>
  );
}
