import { type HarvestFieldKey, harvestField } from "../../records/harvest-field.ts";
import { learnWords, wordsOf } from "./header-words.ts";

/**
 * What people write over each column, in any word order. A phrase under several fields is told apart by what the
 * column holds. A phrase with a leading "?" says little and is taken only where nothing better claims the field.
 */
const phrases: Partial<Record<HarvestFieldKey, string>> = {
  tray_id:
    "tray|tray number|bag number|tray label|tub number|box number|tray bag|identifier|bottle number|tray bag number|?number|?tub|?box|?bag|?sample number",
  batch:
    "batch|batch number|cook|cook number|cook batch|mix|mix number|lot|lot number|run|run number|batch date|charge|lote|substrate batch|grain batch|cook run",
  load: "load|load number|cooker load|steriliser load|steriliser run|cooker run|steriliser cycle|cooker number|steriliser|cooker cycle|pressure cooker load|pressure cooker run|cooker|steriliser batch|load cooker number",
  load_position:
    "load position|position|cooker position|position load|position cooker|steriliser position|rack position|tier|layer|level cooker|position steriliser",
  jar: "jar|jar number|culture jar|lc jar|liquid culture jar|lc|lc number|culture|culture number|lc bottle|lc batch|culture bottle|liquid culture|source jar|inoculum jar|inoculum source|lc source|syringe number|syringe|jar lc number",
  culture_generation:
    "generation|culture generation|transfer|transfer number|generation number|culture transfer|passage|passage number|lc generation|strain generation",
  culture_age_days:
    "culture age|age culture|lc age|jar age|lc age days|culture age days|liquid culture age|age lc|age jar|inoculum age|age",
  strain:
    "strain|species|variety|strain species|mushroom|cultivar|genetics|culture strain|strain number|type mushroom|kind",
  shelf: "shelf|shelf number|rack|rack number|rack shelf|tray shelf|location|shelf position|position shelf",
  chamber:
    "chamber|room|tent|grow room|grow tent|fruiting chamber|fruiting room|fruiting tent|martha|chamber number|tent number|room number|incubator number",
  operator:
    "operator|who|person|inoculated who|worker|staff|grower|inoculator|initials|done|hands|operator number|made",
  container:
    "container|container type|bag type|tray type|type container|box type|format|bag size|container size|packaging|bag kind|kind bag",
  substrate_wet_g:
    "substrate|wet substrate|substrate weight|substrate wet weight|block weight|bag weight|fill weight|filled weight|weight substrate|substrate amount|bag fill weight|wet weight substrate|block wet weight|substrate fresh weight|spawn weight|fill|tray fill weight|tray weight filled|total substrate|substrate tray",
  grain_dry_g:
    "grain|grain weight|grain dry|dry grain|grain dry weight|grain amount|grain air dry|dry grain weight|rice|brown rice|rye|wheat|oat|oats|millet|sorghum|milo|barley|corn|popcorn|birdseed|wbs|rice dry|rye dry|wheat dry|oats dry|millet dry|sorghum air dry|rye air dry|wheat air dry|rice air dry|brown rice dry|wheat berries|rye berries|rye grain|wheat grain|dry rice|sorghum dry|millet air dry|barley dry|grain used",
  supplement:
    "supplement|supplement type|supplement number|supplement kind|type supplement|supplement used|supplement name|nutrient|nutrients|bran|soy hulls|soy|hulls|gypsum|coffee|oat bran|wheat bran|rice bran",
  supplement_grade:
    "supplement grade|grade|grade supplement|supplement brand|brand|supplement type grade|brand grade|bran grade",
  supplement_g:
    "supplement|supplement amount|supplement weight|supplement dose|amount supplement|supplement rate|supplement added|bran|soy hulls|soy|hulls|gypsum|soy flour|soybean meal|oat bran|wheat bran|rice bran|bran amount|bran weight|yeast|peptone|pupae|pupa|silkworm|egg|hulls weight|soy weight|soy hulls weight|nutrient|nutrients|coffee",
  inoculum_ml:
    "inoculum|inoculum volume|inoculum amount|dose|dosage|lc|lc volume|lc amount|liquid culture|liquid culture volume|culture volume|inoculated|inoculated volume|inoculated amount|lc dose|inoculum dose|dose lc|volume inoculum|volume|spawn volume|culture|culture amount|culture dose|injected|injected volume|injection|lc injected|lc used|syringe volume|lc added|inoculum level|inoculated dose|lc tray|inoculum tray|spawn rate|inoculation rate|rate|syringe|liquid inoculum|liquid inoculum volume|culture injected|inoculated with lc",
  added_liquid_ml:
    "added liquid|added water|water|water volume|balance water|water balance|make up water|liquid balance|added liquid volume|water added|water amount|makeup water|top up water|liquid added|sterile water",
  incubation_c:
    "incubation temperature|incubation|spawn run temperature|colonised temperature|temperature incubation|spawn run|temperature colonised|dark temperature|incubation room temperature|temperature spawn run",
  fruiting_c:
    "fruiting temperature|fruiting|temperature fruiting|fruiting room temperature|fruiting chamber temperature|grow temperature|chamber temperature|tent temperature|room temperature|shelf temperature|growing temperature|cropping temperature|?temperature|?temperature set|?set temperature",
  light_hours:
    "light|light hour|hour light|light day|photoperiod|lighting|lights|light cycle|light hour day|lights hour",
  inoculated_on:
    "inoculated|inoculated date|date inoculated|inoculum date|spawned|spawn date|spawned date|date spawned|date lc|injected|injected date|start date|date started|started|injection|day inoculated|inoculated day|date injected|shot|knocked up|lc date|set up date|made date|date made|?date",
  colonised_on:
    "colonised|colonised date|date colonised|fully colonised|full colonised|full colonised date|fully colonised date|colonised complete|100 colonised|100 % colonised|date fully colonised|spawn run complete|spawn run finished|run through|day colonised|colonised finished|colonised done",
  days_to_colonise:
    "colonised days|days colonised|colonised time|time colonised|full colonised days|days full colonised|days fully colonised|colonised|fully colonised|spawn run days|spawn run time|spawn run length|colonised duration",
  fruiting_on:
    "fruiting|fruiting date|fruiting started|fruiting start|fruiting start date|date fruiting|moved fruiting|into fruiting|opened|open date|birthed|birthed date|introduced fruiting|fruiting conditions|fruiting moved|fruiting since|date moved fruiting|pinning|pinned|pins date|in fruiting|start fruiting|opened date|fruiting introduced",
  harvested_on:
    "harvest|harvest date|date harvest|picked|picked date|date picked|day picked|harvest day|cut|cut date|day harvest",
  days_to_harvest:
    "days harvest|harvest days|harvest time|time harvest|days picked|crop cycle|cycle days|cycle length|crop days|total days|days total|cycle time|inoculated harvest days|days inoculated harvest",
  dried_on: "dry|dry date|date dry|dry finished|dry done|day dry|dry off|dry complete",
  flush: "flush|flush number|picked number|harvest number|which flush",
  outcome:
    "outcome|result|status|how|fate|condition|contaminated|contam|contamination|contaminated yn|contam yn|success|fail|good bad|ok|verdict|happened|what happened|how turned out|outcome tray|tray status|finished how|end state|clean",
  fresh_g:
    "fresh weight|fresh|fresh yield|harvest weight|wet weight|weight fresh|fresh harvest|yield fresh|wet yield|harvest fresh weight|fresh weight harvest|picked weight|weight picked|fresh harvest weight|fresh mushroom weight|mushroom weight|mushroom fresh weight|fresh mushroom|harvest wet weight|harvest wet|yield wet weight|yield fresh weight|wet|gross yield|fresh tray|fresh weight tray|?harvest|?yield|?weight|?picked|?weight harvest|?total weight|?total yield|?yield tray|?yield weight",
  dry_g:
    "dry weight|dry|dry yield|weight dry|yield dry|dry weight harvest|harvest dry weight|dry mushroom weight|mushroom dry weight|dry harvest|final dry weight|weight after dry|after dry weight|dry mushroom|final dry|dry product|dry weight tray|dry tray|yield dry weight|dry out weight",
  final_moisture_pct:
    "final moisture|moisture|moisture content|residual moisture|dry moisture|moisture after dry|after dry moisture|moisture final|end moisture|product moisture|dry product moisture|mc",
  trays_in_pool:
    "tray pool|tray together|tray weighed together|pool|pooled|pool size|tray pooled|how many tray|tray count|number of trays weighed|tray weighed|weight together tray|count tray",
  note: "note|comment|remark|observation|observations|memo|notes comment|comment note|misc|details",
};

/** A field a phrase may mean. */
export interface PhraseMeaning {
  field: HarvestFieldKey;
  /** said too little to be sure, taken only where nothing better claims the field */
  weak: boolean;
}

const meanings = new Map<string, PhraseMeaning[]>();
for (const [key, list] of Object.entries(phrases)) {
  const { key: field } = harvestField(key);
  for (const typed of list.split("|")) {
    const weak = typed.startsWith("?");
    const words = wordsOf(weak ? typed.slice(1) : typed);
    learnWords(words);
    const phrase = words.join(" ");
    const known = meanings.get(phrase) ?? [];
    if (!known.some((meaning) => meaning.field === field)) known.push({ field, weak });
    meanings.set(phrase, known);
  }
}

/** The fields that a header's words may mean, as given by `wordsOf`; empty when nobody is known to write them. */
export const meaningsOf = (words: ReadonlyArray<string>): ReadonlyArray<PhraseMeaning> =>
  meanings.get(words.join(" ")) ?? [];
