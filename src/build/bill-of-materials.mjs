// Lists what is bundled, with versions and licences, as a CycloneDX document.
import cyclonedx from "@cyclonedx/cyclonedx-library";

const { Enums, Models, Serialize, Spec, SPDX } = cyclonedx;

/** A licence as package.json states it: one of the SPDX list, an expression of them, or a name. */
function licence(text) {
  if (SPDX.isSupportedSpdxId(text)) return new Models.SpdxLicense(text);
  return /\b(?:OR|AND|WITH)\b/.test(text) ? new Models.LicenseExpression(text) : new Models.NamedLicense(text);
}

/**
 * The bill of materials of a bundle. The same packages give the same bytes: neither time nor serial number stands in it.
 * @param packages each with what its package.json says
 * @source CycloneDX 1.6, ECMA-424
 */
export function billOfMaterials({ version, packages }) {
  const bom = new Models.Bom();
  const component = (name, about, type) => {
    const [group, own] = name.startsWith("@") ? name.split("/") : ["", name];
    const one = new Models.Component(type, own, {
      ...(group === "" ? {} : { group }),
      version: about.version,
      bomRef: `${name}@${about.version}`,
      purl: `pkg:npm/${name.replace("@", "%40")}@${about.version}`,
    });
    if (typeof about.license === "string") one.licenses.add(licence(about.license));
    return one;
  };
  bom.metadata.component = component("gramwright", { version, license: "MIT" }, Enums.ComponentType.Application);
  for (const { name, about } of packages) bom.components.add(component(name, about, Enums.ComponentType.Library));
  const serialiser = new Serialize.JsonSerializer(new Serialize.JSON.Normalize.Factory(Spec.Spec1dot6));
  return `${serialiser.serialize(bom, { sortLists: true, space: 1 })}\n`;
}
