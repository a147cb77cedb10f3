/** The cautions every report carries. They give no recipe and make no health claim. */
export function Cautions() {
  return (
    <ul class="cautions">
      <li>
        <strong>Pressure vessels.</strong> Follow the maker's instructions for yours, check gauge and seal, and never
        open it under pressure. This report holds no sterilising times or temperatures.
      </li>
      <li>
        <strong>Alcohol and flame.</strong> Alcohol used for wiping down catches fire easily, and so does its vapour: no
        flame or spark near wet surfaces or open bottles.
      </li>
      <li>
        <strong>Spores and dust.</strong> They can harm lungs and cause allergy: ventilate, and wear a suitable mask.
      </li>
      <li>
        <strong>Contaminated trays.</strong> Keep them closed, take them out of the grow room, and do not sell or eat
        anything from them. Keep them in the sheet: they are results.
      </li>
      <li>
        <strong>Food, labels, licences and tax.</strong> The rules differ by place and by what is said of a product.
        Follow local codes and licensed practice. Nothing here says that a product is safe or does anything for health.
      </li>
      <li>
        <strong>No advice.</strong> These are calculations from the sheets as typed, not professional, medical, legal or
        tax advice. A wrong sheet gives wrong answers.
      </li>
    </ul>
  );
}
