import type { Vocabulary } from "./vocabulary.ts";

/** What growers write in English. Trade words from memory and from use; month names from Unicode CLDR 48. */
export const english: Vocabulary = {
  language: "en",
  fields: {
    tray_id:
      "tray|tub number|box number|tray bag|identifier|bottle number|tray bag number|?number|?tub|?box|?bag|?sample number|?jar number|tray no|bag no|block|block id|?jar|?unit|grow id|?tr|?sack|?bucket|?trays picked|?trays harvested",
    batch:
      "batch|batch number|cook|cook number|cook batch|mix|mix number|lot|lot number|run|run number|batch date|charge|lote|substrate batch|grain batch|cook run|recipe run|make date|?cook date|?date cooked|?cooked on",
    load: "load|load number|cooker load|steriliser load|steriliser run|cooker run|steriliser cycle|cooker number|steriliser|cooker cycle|pressure cooker load|pressure cooker run|cooker|steriliser batch|load cooker number|?cycle|barrel run",
    load_position:
      "load position|position|cooker position|steriliser position|rack position|tier|layer|level cooker|rack level|top middle bottom|where in cooker",
    jar: "jar|jar number|culture jar|lc jar|liquid culture jar|lc|lc number|culture|culture number|lc bottle|lc batch|culture bottle|liquid culture|source jar|inoculum jar|inoculum source|lc source|syringe number|syringe|jar lc number|spawn batch|spawn lot|?master|?plate|?source",
    culture_generation:
      "generation|culture generation|transfer|transfer number|generation number|culture transfer|passage|passage number|lc generation|strain generation|G|F number",
    culture_age_days:
      "culture age|lc age|jar age|lc age days|culture age days|liquid culture age|inoculum age|age|days old|age of spawn",
    strain:
      "strain|species|variety|strain species|mushroom|cultivar|genetics|culture strain|strain number|type mushroom|kind|isolate|clone",
    shelf: "shelf|shelf number|rack|rack number|rack shelf|tray shelf|location|shelf position|?bay|?row|?spot",
    chamber:
      "chamber|room|tent|grow room|grow tent|fruiting chamber|fruiting room|fruiting tent|martha|chamber number|tent number|room number|incubator number|FC|greenhouse",
    operator:
      "operator|who|person|inoculated who|worker|staff|grower|inoculator|initials|done|hands|operator number|made|?by|inoculated by|injected by|injector|done by|worked by|handled by|filled by|prepared by",
    container:
      "container|container type|bag type|tray type|box type|format|bag size|container size|packaging|bag kind|jar size|bucket",
    substrate_wet_g:
      "substrate|wet substrate|substrate weight|substrate wet weight|block weight|bag weight|fill weight|filled weight|substrate amount|bag fill weight|block wet weight|substrate fresh weight|fill|tray fill weight|tray weight filled|total substrate|substrate tray",
    grain_dry_g:
      "grain|grain weight|grain dry|grain dry weight|grain amount|grain air dry|rice|brown rice|rye|wheat|oat|oats|millet|sorghum|milo|barley|corn|popcorn|birdseed|wbs|rice dry|rye dry|wheat dry|oats dry|millet dry|sorghum air dry|rye air dry|wheat air dry|rice air dry|brown rice dry|wheat berries|rye berries|rye grain|wheat grain|sorghum dry|millet air dry|barley dry|grain used|dry substrate",
    supplement:
      "supplement|supplement type|supplement number|supplement kind|supplement used|nutrient|nutrients|bran|soy hulls|soy|hulls|gypsum|coffee|oat bran|wheat bran|rice bran|recipe",
    supplement_grade:
      "supplement grade|grade|supplement brand|brand|supplement type grade|brand grade|bran grade|?class|?source|supplement supplier|bran supplier",
    supplement_g:
      "supplement|supplement amount|supplement weight|supplement dose|supplement rate|supplement added|bran|soy hulls|soy|hulls|gypsum|soy flour|soybean meal|oat bran|wheat bran|rice bran|bran amount|bran weight|yeast|peptone|pupae|pupa|silkworm|egg|hulls weight|soy weight|soy hulls weight|nutrient|nutrients|coffee|supplement g|bran g|supp %",
    inoculum_ml:
      "inoculum|inoculum volume|inoculum amount|dose|dosage|lc|lc volume|lc amount|liquid culture|liquid culture volume|culture volume|inoculated|inoculated volume|inoculated amount|lc dose|inoculum dose|volume|spawn volume|culture|culture amount|culture dose|injected|injected volume|amount injected|injection|lc injected|lc used|syringe volume|lc added|inoculum level|inoculated dose|lc tray|inoculum tray|syringe|liquid inoculum|liquid inoculum volume|culture injected|inoculated with lc|LC ml|mls injected|syringes|?ml|?mls|?cc",
    spawn_g:
      "spawn|spawn weight|spawn amount|grain spawn|grain spawn weight|spawn used|spawn added|spawn bag|spawn dose|?dose|?spawn rate|?inoculation rate",
    spawn_pct:
      "spawn rate|spawn %|spawn percent|spawning rate|inoculation rate|inoculation %|inoculum rate|spawn ratio|?dose|?rate|?spawn|?spawn amount|?grain spawn",
    added_liquid_ml:
      "added liquid|added water|water|water volume|balance water|make up water|liquid balance|added liquid volume|water amount|makeup water|top up water|sterile water|water ml|top-up|broth ml|hydration",
    incubation_c:
      "incubation temperature|incubation|spawn run temperature|colonised temperature|spawn run|dark temperature|incubation room temperature",
    fruiting_c:
      "fruiting temperature|fruiting|fruiting room temperature|fruiting chamber temperature|grow temperature|chamber temperature|tent temperature|room temperature|shelf temperature|growing temperature|cropping temperature|?temperature|?temperature set",
    light_hours:
      "light|light day|photoperiod|lighting|lights|light cycle|light hour day|lights hour|light h|hours of light|12 12",
    inoculated_on:
      "=date in|=in date|?in|inoculated|inoculated date|inoculum date|spawned|spawn date|spawned date|date lc|injected date|start date|date started|started|?start|injection|day inoculated|knocked up|set up date|made date|?date|?day 0|noc'd|shot on|?made|sown|knock up date",
    colonised_on:
      "colonised|colonised date|fully colonised|fully run|full colonised|full colonised date|fully colonised date|colonised complete|100 colonised|100 % colonised|spawn run complete|spawn run finished|run through|day colonised|colonised finished|colonised done|100%|consolidated|full white|fully white|all white|100 % white|100 white|white through|white all over|day white|date white",
    days_to_colonise:
      "colonised time|full colonised days|days fully colonised|colonised|fully colonised|spawn run days|spawn run time|spawn run length|colonised duration|days to colonise|run time",
    fruiting_on:
      "fruiting date|fruiting started|fruiting start|fruiting start date|moved fruiting|into fruiting|opened|open date|birthed|birthed date|introduced fruiting|fruiting conditions|fruiting since|date moved fruiting|pinning|pinned|pins date|first pins|pins seen|first pin|in fruiting|opened date|to fruiting|into FC|initiated|light on",
    harvested_on:
      "=date out|=out date|?out|harvest|picked|picked date|day picked|harvest day|cut|cut date|flush date|date of harvest|?date",
    days_to_harvest:
      "harvest time|days picked|crop cycle|cycle days|cycle length|total days|cycle time|inoculated harvest days|days to harvest|DTH",
    dried_on: "dry|dry date|dry finished|dry done|day dry|dry off|dry complete|out of dehydrator",
    flush: "flush|flush number|picked number|harvest number|which flush|?pick|wave",
    outcome:
      "alive|healthy|sick|outcome|result|status|how|fate|condition|contaminated|contaminated yn|success|fail|good bad|ok|verdict|happened|what happened|how turned out|outcome tray|tray status|finished how|end state|clean|notes on loss|any contamination|lost|losses|loss|mold|mould|what went wrong|any issues|any problems|problem|good yn|survived|usable",
    fresh_g:
      "before dry|weight before dry|final wet|final wet weight|fresh weight|fresh|fresh yield|harvest weight|wet weight|fresh harvest|wet yield|harvest fresh weight|picked weight|fresh mushroom weight|mushroom weight|fresh mushroom|harvest wet weight|harvest wet|yield wet weight|yield fresh weight|wet|gross yield|fresh tray|fresh weight tray|?harvest|?yield|?weight|?picked|?total weight|?total yield|?yield tray|?yield weight|harvest g|picked g|mushroom g|mushrooms g|fresh mushrooms|fresh mushrooms weight|net fresh|net fresh weight|net wet weight|fresh pick|?lbs|?grams|?net weight|?net yield|?fw|?f w|?net g|?net grams|?net kg|?net oz|?netto g|?neto g",
    dry_g:
      "dry weight|dry|dry yield|dry weight harvest|dry mushroom weight|dry harvest|final dry weight|weight after dry|dry mushroom|dry mushrooms|dry mushrooms weight|final dry|dry product|dry weight tray|dry tray|yield dry weight|dry out weight|dried g|after drying|cracker dry|net dry|net dry weight|?dw|?d w",
    final_moisture_pct:
      "final moisture|moisture|moisture content|residual moisture|dry moisture|moisture after dry|end moisture|product moisture|dry product moisture|mc|moisture %",
    trays_in_pool:
      "tray pool|tray together|tray weighed together|pool|pooled|pool size|tray pooled|how many tray|tray count|=number of trays weighed|=trays weighed|no. of bags|=weighed together|?count|n trays|n bags|# of trays|# of bags|trays in pool|how many|?qty|?quantity|number of bags|number of trays|no of trays|?trays picked|?trays harvested|?trays|?bags|trays in|trays out|trays started|bags started|trays inoculated",
    note: "note|comment|remark|observation|observations|memo|notes comment|misc|details|obs|anything else|anything else to add|notes remarks",
  },
  sameWords: {
    total: "totals|altogether",
    weight: "wt|wgt|wts|weights|mass|weighed|weighing|wght",
    temperature: "temp|temps|tmp|temperatures",
    number: "no|nr|num|nos|#|id|ids|code|label|name|ref",
    fresh: "freshly",
    dry: "dried|drying|dehydrated",
    wet: "moist|hydrated",
    inoculum: "inoculant",
    inoculated: "inoc|inoculation|inoculate|inocd|inoculating|innoculated|innoculation|innoc|impf|nocd|nocced",
    culture: "cultures",
    colonised:
      "colonized|colonisation|colonization|colonise|colonize|colonizing|colonising|coloniz|colonis|col|colon|colonizat",
    fruiting: "fruit|fruited|fruits|fr",
    harvest: "harvested|harv|harvesting|hvst|harvests",
    picked: "pick|picking|cropped|crop",
    incubation: "incub|incubating|incubate|incubated|inc|incubator",
    substrate: "sub|subs|substr|substrates|medium|media",
    supplement: "supp|suppl|supps|supplements|supplementation|supplemented|additive|additives|amendment",
    moisture: "moist%",
    generation: "gen|gens",
    transfer: "transfers|subculture|subcultures",
    position: "pos|positions|spot|place|slot",
    container: "vessel|containers",
    cooker: "pc|cookers|canner",
    steriliser: "sterilizer|sterilisation|sterilization|sterilised|sterilized|autoclave|autoclaved|steri|retort",
    volume: "vol|volumes",
    amount: "amt|qty|quantity",
    hour: "hours|hrs",
    liquid: "liq",
    tray: "trays",
    bag: "bags",
    block: "blocks",
    grams: "gramm|gramos|grammi|gramas|grammes|gram",
    flush: "flushes|flsh|break",
    outcome: "outcomes",
    result: "results",
    status: "state",
    grade: "grades|quality",
    note: "notes",
    comment: "comments",
    remark: "remarks",
    operator: "operators",
    shelf: "shelves",
    chamber: "chambers",
    strain: "strains",
    species: "specie",
    batch: "batches|btch",
    load: "loads",
    jar: "jars",
    date: "dates",
    added: "add|addition|extra|additional",
    first: "1st",
    second: "2nd",
    third: "3rd",
    contaminated: "contam|contamination|contaminations|contams|contaminate",
    injected: "inject|injecting|shot",
  },
  filling:
    "actual actually given the of per a an in at for to from when was is each my our it this with and by on went",
  formFilling:
    "any have has were are did do does you your what how much many please enter net there use used which got get been whats hows it go turn after",
  outcomes: {
    good: "good|made it|ok|okay|okey|fine|success|successful|harvested|picked|done|complete|completed|finished|healthy|clean|great|excellent|perfect|yes|normal|not contaminated|no contamination|no contam|no mold|no mould|no issues|all good|✓|✔|sold|contam free|mold free|mould free|no sign of mold|no losses|no problem|no problems|not lost|nothing lost|none lost|nothing wrong",
    contaminated:
      "gone off|went off|infested|contam|contaminated|contamination|contaminate|contams|contamed|cont|mold|mould|molds|moulds|moldy|mouldy|green|trich|trichoderma|bacterial|bacteria|cobweb|dactylium|infected|infection|sour|wet rot|wet spot|rot|rotten|aspergillus|penicillium|neurospora|lipstick|blotch|green spot|green spots|green patch|went green|gone green|turned green|all green|greened|greened up|green mold|green mould|green carpet|bact|mildew|sour rot|contam spotted|pin mold|bread mold|black mold|black spots|black spot|slime|slimy|smelt off|smells bad|stinks",
    failed:
      "fail|failed|failure|no growth|did not grow|didn t grow|did not colonise|did not colonize|didn t colonise|didn t colonize|never colonised|never colonized|no colonisation|no colonization|no pins|no fruit|no fruits|no yield|no harvest|aborted|abort|aborts|dead|died|stalled|stall|dud|barren|did not take|didn t take|nothing grew|dried out|overheated|never took|flies|mites|rats|mice|slugs|eaten by mice|eaten by rats|eaten by slugs|no good|not good|never grew|never pinned|never fruited|nothing|did nothing|no show|dried up|cooked|not viable|DOA|RIP|bad",
    discarded:
      "discard|discarded|tossed|toss|threw out|thrown out|thrown away|threw away|throw out|throw away|throw it out|throw it away|binned|bin|trashed|trash|dumped|composted|compost|scrapped|culled|dropped|broken|broke|spilled|spilt|torn|destroyed|disposed|chucked|lost|thrown|chucked out|in the bin|to compost|threw it out|threw it away|tipped|pitched|pitched it|wiped out|total loss|written off|wrote off|gave up",
    growing:
      "growing|still growing|in progress|inprogress|colonising|colonizing|incubating|incubation|fruiting|pinning|pins|ongoing|on going|active|started|still going|wip|running|not ready|not done|not harvested|not harvested yet|still colonising|still colonizing|still incubating|in incubation|in fruiting|not ready yet|colonised|spawn run",
    drying:
      "drying|still drying|in dehydrator|in the dehydrator|not dry yet|not dried yet|not yet dry|not yet dried|not dried|in dryer|in the dryer|on the rack|dehydrating|air drying|in drier|to dry|sold fresh|weigh later|not weighed yet|not yet weighed|to be weighed|to weigh|needs weighing",
    pending: "pending|waiting|tbd|tbc|to come|later|open|not yet|to be done",
    spent: "spent|retired|exhausted|last flush done",
  },
  picked: "harvested|picked|sold|gave away|given away|gave to|gave it|gave them|gifted|ate it|ate them|eaten|cropped",
  unsure:
    "gone off|went off|green|bin|dead|died|sour|rot|lost|dropped|broken|broke|torn|bad|nothing|cooked|cont|stall|pins|infection|blotch|lipstick|trash|spent|flies|mites|rats|mice|slugs|abort|aborts|aborted|stalled|spilled|spilt|destroyed|culled|dried up|dried out|overheated|bacteria|compost|dud|toss|scrapped|black mold|black spots|black spot|slime|slimy|smelt off|smells bad|stinks|throw out|throw away|throw it out|throw it away",
  likeLosses:
    "checked|inspected|injected|injecting|injection|injections|crashed|dripped|drooped|dropper|droppers|patched|pinched|propped|scraped|strapped|stapled|spelled|tripped|touches|pouches|couches|battery|batteries|compose|composed|dispose|hitched|pitcher|greener|crooked",
  negations: {
    before:
      "no|not|non|without|never|zero|nil|none|neither|nor|free of|free from|clear of|isn t|isnt|wasn t|wasnt|didn t|didnt|hasn t|hasnt|aint|no sign of|no signs of|no trace of|no visible|not a|not any|cannot see|can t see|don t see",
    after: "free|nil|none|negative|no",
  },
  scopeEnds: "but|just|however|although|though|only|then|so|after|because|until|except|yet|still|and then|instead",
  doubt:
    "neighbour|neighbor|next to|next one|nearby|the other one|lid only|on the lid|on lid|maybe|possibly|possible|suspect|suspected|probably|perhaps|might be|looks like|unsure|not sure|away from|other trays|all others|lid|replaced|swapped|watch|watch for|watching|check|check for|keep an eye|if|will toss|may toss|toss on",
  yes: "y|yes|yep|yeah|true|x|1|✓|✔|☑|☒",
  no: "n|no|nope|false|0|none|nil|☐",
  missing: {
    "not applicable":
      "n/a|na|n.a.|n.a|n\\a|not applicable|does not apply|s/o|see note|see notes|see comment|see comments|see remarks",
    unknown:
      "unknown|unk|don't know|dont know|dunno|dk|no idea|not known|not sure|unsure|tbd|tbc|null|nan|nil data|missing|no data|(blank)|blank|empty|undefined|to be done|todo|to do|lost the note",
    "not weighed":
      "not weighed|unweighed|nw|n.w.|forgot|forgot to weigh|forgot to measure|didn't weigh|didnt weigh|did not weigh|not measured|not recorded|not taken|nr|n.r.|n/r|no record|not noted|not checked|not counted|scale broke|forgotten",
  },
  numbers: "zero,nil,none,nothing|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve",
  months:
    "january,jan|february,feb|march,mar|april,apr|may|june,jun|july,jul|august,aug|september,sep,sept|october,oct|november,nov|december,dec",
  weekdays: "monday,mon|tuesday,tue,tues|wednesday,wed|thursday,thu,thur,thurs|friday,fri|saturday,sat|sunday,sun",
  summaries: {
    sum: "total|totals|sub total|subtotal|grand total|sum|overall|Σ|sums|running total|all trays",
    mean: "average|avg|averages|mean|means|ave|avg tray|average per tray|per tray average|mean tray",
    median: "median|medians",
    count: "count|n|number of trays|no of trays",
    spread:
      "std dev|st dev|stdev|standard deviation|sd|s d|min|minimum|max|maximum|range|cv|cv%|cv %|variance|stderr|std err|se",
  },
  flushes: "flush|flushes|harv|pick|picking|break|harvest|crop|wave|fl",
  ordinals: "1st,first|2nd,second|3rd,third|4th,fourth|5th,fifth",
  each: "each|per tray|per bag|per block|apiece|a tray|a bag|ea|/tray|/bag|/block|every tray",
  joins: "and|plus|&",
  ranges: "to|through|thru|until",
  tare: "towel|paper towel|bag|tray|tub|bowl|dish|plate|container|box|jar|lid|basket|pan|tare|packaging|crate|bucket",
  withWords: "with|w/|incl|incl.|including|inc|inc.|plus|in|on|gross",
  tray: "tray|bag|block|tub|box|jar|bucket|unit",
  seen: "seen|found|visible|detected|present|there|noticed|spotted|observed|yet|so far",
  ors: "or|nor",
  // costs.csv and products.csv name their columns in English: other names stand with each
  money: { costs: {}, products: {}, kinds: {}, bases: {}, forms: {} },
};
