import type { Vocabulary } from "./vocabulary.ts";

/** What growers write in Portuguese. Trade words from memory and from use; month names from Unicode CLDR 48. */
export const portuguese: Vocabulary = {
  language: "pt",
  fields: {
    tray_id:
      "bandeja|saco|pacote|?bloco|?frasco|?pote|?número|?n.º|número da bandeja|número do saco|bandeja n.º|bandeja n|tabuleiro n|saco n|tabuleiro|?bandejas",
    batch: "lote|cozimento|batelada|mistura|fornada",
    load: "carga|ciclo de autoclave|autoclavagem|esterilização|panela de pressão",
    load_position: "posição|nível|andar|cima meio baixo",
    jar: "cultura líquida|CL|frasco de cultura|seringa|semente|lote de semente|matriz",
    culture_generation: "geração|repicagem|passagem|transferência",
    culture_age_days: "idade da cultura|idade da semente|dias da cultura",
    strain: "cepa|linhagem|espécie|variedade|isolado|clone",
    shelf: "prateleira|estante|?local",
    chamber: "câmara|sala|estufa|tenda|sala de frutificação",
    operator: "quem|operador|?por|iniciais|responsável",
    container: "recipiente|tipo de saco|tamanho do saco|balde|embalagem",
    substrate_wet_g: "peso do substrato|substrato úmido|peso do pacote|peso do bloco",
    grain_dry_g: "grão seco|grão|arroz|arroz seco|centeio|painço|sorgo|substrato seco",
    supplement: "suplemento|aditivo|farelo|farelo de trigo|casca de soja|gesso|receita",
    supplement_grade: "grau|qualidade|marca|fornecedor do suplemento",
    supplement_g: "suplemento g|farelo g|dose de suplemento|aditivo %",
    inoculum_ml: "inóculo|cultura líquida|CL|CL ml|dose|ml por saco|volume de inóculo|cultura líquida ml",
    spawn_g: "semente|quantidade de semente|inóculo em grão|micélio em grão|?dose",
    spawn_pct:
      "taxa de inoculação|% de semente|porcentagem de semente|taxa de semeadura|?dose|?semente|?quantidade de semente",
    added_liquid_ml: "água adicionada|água ml|caldo ml",
    incubation_c: "temperatura de incubação|temp. incubação",
    fruiting_c: "temperatura de frutificação|temp. frutificação",
    light_hours: "horas de luz|luz h|fotoperíodo|iluminação",
    inoculated_on:
      "inoculado em|data de inoculação|inoculação|semeado|data de semeadura|inoculado|data inoculação|data da inoculação|?início",
    colonised_on: "colonizado|data de colonização|colonização completa|corrida completa|colonizado em",
    days_to_colonise: "dias de colonização|dias de incubação|tempo de incubação|corrida do micélio",
    fruiting_on: "para frutificação|indução|abertura|aberto em|primórdios",
    harvested_on: "colhido em|data da colheita|colheita|colhido|data colheita|data de colheita",
    days_to_harvest: "dias até a colheita|ciclo|precocidade",
    dried_on: "seco em|data de secagem|desidratado em|data secagem",
    flush: "fluxo|colheita n.º|safra|flush",
    outcome: "resultado|situação|estado|status|contaminação|contaminado|perda|perdas|mofo|problema",
    fresh_g:
      "peso fresco|fresco|colheita g|rendimento|produção|massa fresca|peso úmido|peso líquido fresco|colheita fresca|?peso|?colheita|?peso líquido",
    dry_g: "peso seco|seco|massa seca|seco g|desidratado g|peso desidratado|colheita seca",
    final_moisture_pct: "umidade final|umidade residual|humidade|teor de água",
    trays_in_pool:
      "n.º de bandejas|n.º de sacos|pesados juntos|?quantidade|número de bandejas|quantas bandejas|?bandejas",
    note: "nota|observações|comentário|obs|notas|comentários|observação",
  },
  sameWords: {
    weight: "peso|pesos|massa|pesado",
    temperature: "temperatura|temperaturas",
    number: "número|num",
    fresh: "fresco|fresca|frescos",
    dry: "seco|seca|secos|desidratado|desidratada",
    wet: "úmido|úmida|molhado|humido|húmido",
    inoculated: "inoculado|inoculada|inoculação|semeado",
    harvest: "colheita|colhido|colheitas|colhida",
    colonised: "colonizado|colonização",
    days: "dias|dia",
    date: "data|datas",
    amount: "quantidade",
    note: "nota|notas",
    comment: "comentário|comentários",
    remark: "observação|observações",
    contaminated: "contaminado|contaminada|contaminação|contaminações",
  },
  filling: "o a os as de do da dos das em no na por para ao à e um uma",
  formFilling: "qual quais quando quanto quanta quantos houve há alguma algum foi favor que",
  outcomes: {
    good: "bom|boa|ok|sadio|limpo|colhido|sem contaminação|sem mofo|não contaminado|perfeito|ótimo|tudo bem|terminado|sadia|limpa|colhida",
    contaminated:
      "contaminado|contaminada|mofo|mofado|bolor|embolorado|mofo verde|verde|bactéria|podre|infectado|contaminação|mofos|tricoderma|bactérias|mancha verde|infectada|mofada|embolorada|bacteriano|bolores|mofou|embolorou|contaminou|contaminou se|apodreceu|apodrecida|apodrecido",
    failed:
      "falhou|não cresceu|sem crescimento|não pegou|sem primórdios|sem colheita|abortado|morto|superaquecido|moscas|ácaros|nada|morta|fracassou|não vingou|ruim|abortada|perdeu",
    discarded:
      "descartado|jogado fora|eliminado|compostado|perdido|quebrado|jogada fora|lixo|no lixo|descartada|perdida|deitado fora|deitada fora|deitei fora|joguei fora|foi para o lixo|para o lixo|pro lixo|foi pro lixo|eliminada|jogou fora|jogado no lixo",
    growing:
      "crescendo|em crescimento|em incubação|em frutificação|ainda não|em andamento|incubação|frutificação|ainda crescendo|a crescer|colonizando",
    drying: "secando|a secar|em secagem|no desidratador|a pesar|por pesar|ainda não seco|falta secar|falta pesar",
    pending: "pendente|a aguardar|aguardando",
    spent: "esgotado",
  },
  picked: "colhido|colhida|vendido|vendida|dado|comido",
  unsure:
    "verde|morto|morta|nada|quebrado|perdido|perdida|moscas|ácaros|ruim|podre|bactéria|bactérias|lixo|superaquecido|perdeu",
  negations: {
    before: "não|nao|sem|nenhum|nenhuma|nunca|livre de|nem|nada de|sem sinal de|não há|jamais",
    after: "negativo|não|nenhuma|nenhum",
  },
  scopeEnds: "mas|só|somente|apenas|porém|depois|porque|embora|ainda|então",
  doubt:
    "vizinho|vizinha|ao lado|tampa|talvez|possível|possivelmente|suspeita|suspeito|provável|provavelmente|acho|vigiar|verificar|ficar de olho|trocada|substituída",
  yes: "sim|s|verdadeiro",
  no: "não|nao|falso|nenhuma|nenhum",
  missing: {
    "not applicable": "não se aplica|n.a.",
    unknown: "n/d|s/d|desconhecido|falta|sem dados|não sei|vazio",
    "not weighed": "não pesado|sem pesar|esquecido|esqueci|não medido|não anotado",
  },
  numbers: "zero,nada|um,uma|dois,duas|três|quatro|cinco|seis|sete|oito|nove|dez|onze|doze",
  months:
    "janeiro,jan|fevereiro,fev|março,mar|abril,abr|maio,mai|junho,jun|julho,jul|agosto,ago|setembro,set|outubro,out|novembro,nov|dezembro,dez",
  weekdays:
    "segunda-feira,segunda,seg|terça-feira,terça,ter|quarta-feira,quarta,qua|quinta-feira,quinta,qui|sexta-feira,sexta,sex|sábado,sáb|domingo,dom",
  summaries: {
    sum: "total|totais|soma|sub total|subtotal|total geral",
    mean: "média|médias|em média",
    median: "mediana",
    count: "quantidade|contagem|número",
    spread: "desvio padrão|desvio|variância|mínimo|máximo|amplitude|mín|máx",
  },
  flushes: "fluxo|safra|colheita|flush",
  ordinals:
    "1ª,1º,primeira,primeiro|2ª,2º,segunda,segundo|3ª,3º,terceira,terceiro|4ª,4º,quarta,quarto|5ª,5º,quinta,quinto",
  each: "cada|cada uma|cada um|por bandeja|por saco|/bandeja|/saco",
  joins: "e|mais",
  ranges: "a|até",
  tare: "toalha|saco|bandeja|prato|tigela|recipiente|caixa|frasco|tampa|cesta|embalagem|tara|papel|pote",
  withWords: "com|incl|incluindo|incluso|bruto|em",
  tray: "bandeja|saco|bloco|frasco|pote",
  seen: "visível|visto|vista|encontrado|encontrada|presente|detectado|há",
  ors: "ou|nem",
};
