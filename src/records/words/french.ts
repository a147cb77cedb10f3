import type { Vocabulary } from "./vocabulary.ts";

/** What growers write in French. Trade words from memory and from use; month names from Unicode CLDR 48. */
export const french: Vocabulary = {
  language: "fr",
  fields: {
    tray_id:
      "barquette|bac|plateau|sac|n° sac|ballot|?bloc|?bocal|?numéro|?n°|barquette n°|numéro de bac|numéro de sac|n° bac|bac n|barquette n|sac n|?barquettes|?bacs",
    batch: "lot|fournée|cuisson|mélange|préparation",
    load: "cycle autoclave|passage autoclave|?cuve|cocotte|stérilisation|fût",
    load_position: "position|étage|niveau|haut milieu bas",
    jar: "culture liquide|CL|bocal de culture|seringue|lot de blanc|blanc|lot de mycélium|souche mère",
    culture_generation: "génération|repiquage|passage|transfert",
    culture_age_days: "âge de la culture|âge du blanc|âge CL|âge jours",
    strain: "souche|espèce|variété|clone|isolat",
    shelf: "étagère|?rayon|rack|emplacement",
    chamber: "chambre|salle|tente|salle de fructification|serre|cave",
    operator: "qui|?par|opérateur|initiales|fait par",
    container: "contenant|récipient|type de sac|taille du sac|seau|barquette type",
    substrate_wet_g: "poids du substrat|substrat humide|poids du sac|poids du ballot|substrat mouillé",
    grain_dry_g: "grain sec|céréale|riz|riz sec|seigle|millet|sorgho|substrat sec",
    supplement: "supplément|additif|son|son de blé|coques de soja|gypse|plâtre|recette",
    supplement_grade: "qualité|grade|marque|fournisseur du supplément",
    supplement_g: "supplément g|son g|dose de supplément|additif %",
    inoculum_ml: "volume d'inoculum|culture liquide|CL|CL ml|dose|inoculum|ml par sac|?ml|volume de culture",
    spawn_g: "blanc|blanc de semis|quantité de blanc|mycélium sur grain|blanc sur grain|?dose",
    spawn_pct:
      "taux de lardage|taux d'inoculation|taux d'ensemencement|taux de blanc|blanc %|?dose|?blanc|?quantité de blanc",
    added_liquid_ml: "eau ajoutée|eau ml|complément d'eau|bouillon ml",
    incubation_c: "température d'incubation|temp. incubation",
    fruiting_c: "température de fructification|temp. fructification",
    light_hours: "heures de lumière|éclairage|photopériode",
    inoculated_on:
      "inoculé le|date d'inoculation|lardé le|lardage|ensemencé le|date d'ensemencement|inoculation|date inoculation|inoculé|?début",
    colonised_on: "colonisé le|colonisation complète|envahi|100 % colonisé|date de colonisation|colonisé",
    days_to_colonise: "jours de colonisation|durée d'incubation|jours d'incubation",
    fruiting_on: "mise en fructification|ouverture|induction|ouvert le|primordia",
    harvested_on: "récolté le|date de récolte|cueilli le|récolte|cueillette|date récolte|récolté",
    days_to_harvest: "jours avant récolte|durée du cycle|cycle jours",
    dried_on: "séché le|date de séchage|sorti du déshydrateur|date séchage",
    flush: "volée|flush|vague|levée|récolte n°",
    outcome: "résultat|état|statut|devenir|contamination|conta|contaminé|perte|pertes|moisissure|problème",
    fresh_g:
      "poids frais|frais|récolte g|rendement|poids récolté|poids net frais|poids mouillé|masse fraîche|récolte fraîche|frais net|?poids|?récolte",
    dry_g: "poids sec|sec|séché g|poids après séchage|masse sèche|sèche|récolte sèche|séché",
    final_moisture_pct: "humidité résiduelle|humidité %|teneur en eau",
    trays_in_pool:
      "nombre de sacs|pesés ensemble|groupés|?quantité|nombre de barquettes|nombre de bacs|nb de bacs|?bacs|?barquettes",
    note: "remarque|note|observations|commentaire|obs|remarques|notes|commentaires",
  },
  sameWords: {
    total: "totale|totaux",
    weight: "poids|masse|pesee|pese",
    temperature: "température|temperatures",
    number: "numéro|num",
    fresh: "frais|fraiche|fraîche|fraiches",
    dry: "sec|seche|sèche|séché|secs",
    wet: "humide|mouille|mouillé",
    inoculated: "inoculé|inoculee|lardé|ensemencé|inoculés",
    harvest: "récolte|récolté|récoltes|cueillette|cueilli",
    colonised: "colonisé|colonisée|colonisation|envahi",
    days: "jours|jour",
    amount: "quantité|qté",
    note: "remarque|remarques",
    comment: "commentaire|commentaires",
    contaminated: "contaminé|contaminée|conta|contaminations",
  },
  filling: "le la les l de du des d un une par pour au aux et à en avant",
  formFilling: "quel quelle quels quelles combien quand est ce y a t il net nette avez vous svp",
  outcomes: {
    good: "bon|bonne|réussi|réussie|réussite|ok|sain|propre|récolté|RAS|R.A.S.|sans contamination|pas contaminé|pas de moisissure|non contaminé|parfait|nickel|bien|tout va bien|terminé|saine",
    contaminated:
      "contaminé|contaminée|conta|moisi|moisie|moisissure|vert|trichoderma|bactérien|pourri|infecté|contamination|moisissures|moisissure verte|trich|bactérienne|bactéries|tache verte|pourriture|verte|infectée",
    failed:
      "échec|raté|pas pris|pas de croissance|pas de pousse|pas de récolte|avorté|mort|desséché|surchauffé|mouches|acariens|rien|rien poussé|morte|ratée|foutu|avortée|mauvais",
    discarded:
      "jeté|jetée|mis au rebut|composté|éliminé|écarté|cassé|jetés|poubelle|à la poubelle|éliminée|perdu|perdue|mis au compost",
    growing:
      "en cours|pousse|en incubation|en fructification|pas encore|en croissance|incubation|fructification|ça pousse|en colonisation|en train de pousser",
    drying:
      "séchage|en séchage|sèche encore|au déshydrateur|pas encore sec|à peser|pas encore pesé|en cours de séchage",
    pending: "en attente|à venir",
    spent: "épuisé",
  },
  picked: "récolté|récoltée|cueilli|cueillie|vendu|vendue|donné|mangé",
  unsure:
    "vert|verte|mort|morte|rien|cassé|perdu|perdue|mouches|acariens|mauvais|pourri|foutu|desséché|surchauffé|conta",
  negations: {
    before: "pas|pas de|pas d|sans|aucun|aucune|non|jamais|exempt de|exempte de|ni|aucune trace de|plus de|rien de",
    after: "négatif|non|exempt",
  },
  scopeEnds: "mais|juste|seulement|cependant|puis|ensuite|car|toutefois|après|encore",
  doubt:
    "voisin|voisine|à côté|couvercle|peut être|possible|suspect|suspecte|probable|probablement|soupçon|surveiller|vérifier|remplacé|changé",
  yes: "o|oui|vrai",
  no: "non|faux|aucune|aucun",
  missing: {
    "not applicable": "s.o.|so|sans objet|n.a.",
    unknown: "n.d.|nd|n/d|inconnu|inconnue|manquant|sais pas|vide|aucune donnée",
    "not weighed": "non pesé|pas pesé|oublié|pas mesuré|non mesuré|non noté",
  },
  numbers: "zéro,rien|un,une|deux|trois|quatre|cinq|six|sept|huit|neuf|dix|onze|douze",
  months:
    "janvier,janv,jan|février,févr,fév|mars|avril,avr|mai|juin|juillet,juil|août,aou|septembre,sept,sep|octobre,oct|novembre,nov|décembre,déc",
  weekdays: "lundi,lun|mardi,mar|mercredi,mer|jeudi,jeu|vendredi,ven|samedi,sam|dimanche,dim",
  summaries: {
    sum: "total|totaux|somme|sous total|total général|cumul",
    mean: "moyenne|moyennes|moy",
    median: "médiane",
    count: "nombre|nb|effectif",
    spread: "écart type|ecart type|variance|min|max|étendue|minimum|maximum",
  },
  flushes: "volée|vague|levée|récolte|pousse",
  ordinals:
    "1er,1re,1ère,première,premier|2e,2ème,2nde,deuxième,seconde|3e,3ème,troisième|4e,4ème,quatrième|5e,5ème,cinquième",
  each: "chacun|chacune|par sac|par bac|par barquette|pièce|/sac|/bac",
  joins: "et|plus",
  ranges: "à|au|jusqu à",
  tare: "serviette|torchon|sac|bac|barquette|bol|assiette|contenant|caisse|bocal|couvercle|panier|emballage|tare|papier",
  withWords: "avec|y compris|inclus|brut|compris|dans",
  tray: "barquette|bac|sac|bloc|bocal",
  seen: "visible|détectée|détecté|vue|vu|trouvée|trouvé|présente|constatée|encore",
  ors: "ou|ni",
};
