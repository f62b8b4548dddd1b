import { remember } from "./remember.ts";

/** What the name of a column says. */
export interface NameMeaning {
  quantity: "temperature" | "time" | "mass" | "derivative" | "heat-flow" | "index" | "other";
  /** Whose temperature it is. */
  of?: "sample" | "programme" | "furnace" | "reference";
  /** A change or a loss instead of the mass itself. */
  change?: "change" | "loss";
  /** Relative to something: %, or a fraction. */
  relative?: boolean;
  /** One letter or an abbreviation: the unit may overrule it. */
  weak?: boolean;
}

// Words of nine languages after `fold`: English, German, French, Spanish, Portuguese, Italian, Polish; Chinese and Japanese
// apart, since they write no blanks.
const temperature = /^(temp|temperatur\w*|tmp|tsample|tprobe|tprog|tfurnace|tref)$/;
const time = /^(time|zeit|messzeit|temps|tiempo|tempo|czas|uhrzeit|elapsed|dauer|duree|duration)$/;
const mass =
  /^(mass|masse|masa|massa|weight|wt|gewicht|gew|probenmasse|probengewicht|restmasse|poids|peso|waga|ciezar|tg|tga|thermogravimetry|thermogravimetrie|einwaage|masy|mas|massenanteil|residue|residuo|residu|ruckstand|rest|m)$/;
const change =
  /^(change|changes|variation|variazione|variacao|variacion|anderung|aenderung|masseanderung|massenanderung|massenaenderung|gewichtsanderung|masseaenderung|zmiana|zmiany|delta|difference|diff|dm|dw|Δ)$/;
const loss =
  /^(loss|losses|lost|verlust|massenverlust|masseverlust|gewichtsverlust|perte|pertes|perdida|perda|perdita|ubytek|utrata|abnahme|massenabnahme)$/;
const derivative =
  /^(dtg|dtga|deriv|derivative|derivata|derivada|derivee|ableitung|pochodna|ddtg|dmdt|dtgsignal|rate|vitesse|velocidad|velocidade|velocita|geschwindigkeit|predkosc|szybkosc|massenanderungsrate)$/;
const heat =
  /^(dsc|dta|sdta|heatflow|warmestrom|waermestrom|warmefluss|heat|chaleur|calor|calore|ciepla|enthalpy|microvolt|thermospannung)$/;
const index =
  /^(index|idx|no|nr|n|number|nummer|numero|numer|point|points|punkt|messpunkt|punto|ponto|lp|row|zeile|ligne|fila|linha|riga|wiersz|lfd|#|id|count|sample no|i)$/;
const other =
  /^(error|err|fehler|erreur|errore|erro|blad|std|sd|stdev|deviation|uncertainty|unsicherheit|sigma|noise|status|segment|seg|step|stage|cycle|event|marker|flow|purge|pressure|druck|gas|voltage|current|humidity|abschnitt|schritt|etape|etapa|stadio|faza|krok|durchfluss|debit|caudal|vazao|flusso|przeplyw|power|leistung|puissance|potencia|potenza|moc|date|datum|fecha|data|dtemp|valve|alarm|comment|remark|bemerkung|ambient|room|raum|cooling|water|gastemp|blank|buoyancy|auftrieb|correction|baseline|heizrate|heating)$/;

const sample =
  /^(sample|specimen|probe|proben|probentemperatur|probentemp|echantillon|muestra|amostra|campione|probki|probka|tsample|tprobe|ts)$/;
const programme =
  /^(program|programme|programmed|programm|prog|setpoint|set|setvalue|soll|solltemperatur|sollwert|target|nominal|consigne|programada|programado|programmata|programowana|zadana|consigna|impostata|tprog|programmtemperatur|programmee|programa)$/;
const furnace = /^(furnace|oven|ofen|ofentemperatur|four|horno|forno|piec|pieca|heater|heizer|tfurnace|block|kiln)$/;
const reference = /^(reference|ref|referenz|referenztemperatur|referencia|riferimento|odniesienia|tref|tr|vergleich)$/;

const eastern: [RegExp, NameMeaning][] = [
  [/误差|誤差|标准差|标准偏差|流量|压力|圧力|状态|状態|段/, { quantity: "other" }],
  [/微分|导数|導数|速率|速度/, { quantity: "derivative" }],
  [/热流|熱流|差热|示差|热量|熱量/, { quantity: "heat-flow" }],
  [/(程序|设定|設定|プログラム|目标|目標).*(温度|温)/, { quantity: "temperature", of: "programme" }],
  [/(炉|炉内|加热炉).*(温度|温)|炉温/, { quantity: "temperature", of: "furnace" }],
  [/(参比|参考|基準|リファレンス|参照).*(温度|温)/, { quantity: "temperature", of: "reference" }],
  [/(样品|试样|試料|サンプル|样本).*(温度|温)/, { quantity: "temperature", of: "sample" }],
  [/温度/, { quantity: "temperature" }],
  [
    /(质量|重量|質量|減量|失重|减重).*(分数|分率)|剩余质量|残余质量|残存質量|質量比|质量比/,
    { quantity: "mass", relative: true },
  ],
  [/失重|减重|減量|(质量|重量|質量).*(损失|減少|减少|损耗|損失)/, { quantity: "mass", change: "loss" }],
  [/(质量|重量|質量).*(变化|変化|差)/, { quantity: "mass", change: "change" }],
  [/质量|重量|質量/, { quantity: "mass" }],
  [/时间|時間|時刻|时刻/, { quantity: "time" }],
  [/序号|编号|番号|点数|序列/, { quantity: "index" }],
];

/**
 * What the name of a column says, in English, German, French, Spanish, Portuguese, Italian, Polish, Chinese or Japanese, or
 * as a symbol (ISO 80000, IUPAC: T, ϑ, m, t, Δm, dm/dt); null where it says nothing known.
 *
 * @example
 * ```ts
 * recogniseName("Probentemperatur"); // { quantity: "temperature", of: "sample" }
 * ```
 */
export function recogniseName(name: string): NameMeaning | null {
  // Nobody calls a column so.
  if (name.length > 200) return null;
  return remember(seen, name, understood);
}

/** The same few headings come back with every file. */
const seen = new Map<string, NameMeaning | null>();

function understood(name: string): NameMeaning | null {
  return bySymbol(name.trim()) ?? byEasternName(name) ?? byWords(fold(name));
}

function bySymbol(name: string): NameMeaning | null {
  const symbol = name.replace(/[\s._]/g, "").replace(/[()[\]]/g, "");
  if (/^(T|ϑ|θ|Θ|Tc)$/.test(symbol)) return { quantity: "temperature", weak: true };
  if (/^(ϑ|θ|T)(s|S|p|P|sample|Probe)$/.test(symbol)) return { quantity: "temperature", of: "sample", weak: true };
  if (/^(ϑ|θ|T)(r|R|ref)$/.test(symbol)) return { quantity: "temperature", of: "reference", weak: true };
  if (/^(ϑ|θ|T)(f|F|furnace|Ofen)$/.test(symbol)) return { quantity: "temperature", of: "furnace", weak: true };
  if (/^(ϑ|θ|T)(prog|set|soll)$/.test(symbol)) return { quantity: "temperature", of: "programme", weak: true };
  if (/^t$/.test(symbol)) return { quantity: "time", weak: true };
  if (/^(m|w)$/.test(symbol)) return { quantity: "mass", weak: true };
  if (/^(m|w|M|W)\/(m|w|M|W)(0|₀|i|o|init|initial)$/.test(symbol)) return { quantity: "mass", relative: true };
  if (/^(Δ|∆|δ)(m|w|M|W|mass|Masse)(\/(m|w)(0|₀)?)?$/.test(symbol)) {
    return symbol.includes("/")
      ? { quantity: "mass", change: "change", relative: true }
      : { quantity: "mass", change: "change" };
  }
  if (/^-?(d|∂)\(?(m|w|TG|M|W)\)?\/(d|∂)(t|T|ϑ|θ)$/i.test(symbol)) return { quantity: "derivative" };
  if (/^(Δ|∆|d)T$/.test(symbol)) return { quantity: "other" };
  if (/^(#|№|No|Nr)$/.test(symbol)) return { quantity: "index" };
  return null;
}

function byEasternName(name: string): NameMeaning | null {
  if (!/[\u3040-\u30ff\u4e00-\u9fff]/.test(name)) return null;
  return eastern.find(([pattern]) => pattern.test(name))?.[1] ?? null;
}

function byWords(words: string[]): NameMeaning | null {
  const has = (pattern: RegExp): boolean => words.some((word) => pattern.test(word));
  if (words.length === 0) return null;
  const stem = (pattern: RegExp): boolean => words.some((word) => pattern.test(word));
  if (has(derivative)) return { quantity: "derivative" };
  if (has(heat)) return { quantity: "heat-flow" };
  if (has(temperature) || stem(/temperatur|temp$/)) {
    if (has(other) || has(change)) return { quantity: "other" };
    const of =
      stem(/^proben/) || has(sample)
        ? "sample"
        : has(programme) || stem(/^(programm|soll)/)
          ? "programme"
          : has(furnace) || stem(/^ofen/)
            ? "furnace"
            : has(reference) || stem(/^(referenz|vergleich)/)
              ? "reference"
              : undefined;
    return of === undefined ? { quantity: "temperature" } : { quantity: "temperature", of };
  }
  if (has(other)) return { quantity: "other" };
  const relative = has(
    /^(fraction|relative|relativ|relativa|relativo|rel|anteil|massenanteil|fraccion|fracao|frazione|ulamek|normalised|normalized|normiert|percent|percentage|prozent|residual|restmasse)$/,
  );
  if (has(loss) || stem(/verlust$/)) return { quantity: "mass", change: "loss", ...(relative && { relative }) };
  if (has(mass) || stem(/^(massen|gewichts?)\w*/)) {
    const changes = has(change) || stem(/(anderung|aenderung)$/);
    return { quantity: "mass", ...(changes && { change: "change" as const }), ...(relative && { relative }) };
  }
  if (has(time)) return { quantity: "time", weak: words.includes("temps") || words.includes("tempo") };
  if (has(index)) return { quantity: "index" };
  return null;
}

/** Lower case, without accents and marks, in words; camel case and underscores part words. */
function fold(name: string): string[] {
  return name
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .replace(/ł/g, "l")
    .replace(/Ł/g, "L")
    .replace(/ß/g, "ss")
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .split(/[^\p{L}\p{N}#Δ]+/u)
    .filter((word) => word !== "");
}
