import { remember } from "./remember.ts";
import { type Sense, wordSenses } from "./wordSenses.ts";

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
  /** Means this only together with a unit of temperature: "Setpoint". */
  needsUnit?: boolean;
}

// Chinese and Japanese write no blanks: the first pattern that is found counts.
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
  if (/^(m|w)t?\/(m|w)(0|₀|i|o|init|initial)$/i.test(symbol)) return { quantity: "mass", relative: true };
  if (/^(mass|weight)\/(initial|original|starting)?(mass|weight)$/i.test(symbol))
    return { quantity: "mass", relative: true };
  if (/^(Δ|∆|δ)(m|w|M|W|mass|Masse)(\/(m|w)(0|₀)?)?$/.test(symbol)) {
    return symbol.includes("/")
      ? { quantity: "mass", change: "change", relative: true }
      : { quantity: "mass", change: "change" };
  }
  if (/^d-?TGA?$/.test(symbol)) return { quantity: "derivative" };
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
  const senses = new Set(words.flatMap(wordSenses));
  const has = (sense: Sense): boolean => senses.has(sense);
  if (has("derivative")) return { quantity: "derivative" };
  if (has("heat")) return { quantity: "heat-flow" };
  const of = (["sample", "programme", "furnace", "reference"] as const).find(has);
  if (has("temperature")) {
    if (has("other") || has("change")) return { quantity: "other" };
    return { quantity: "temperature", ...(of !== undefined && { of }) };
  }
  // Crucible and reference have masses too.
  if (has("other") || (has("mass") && (has("vessel") || has("reference")))) return { quantity: "other" };
  const relative = has("relative");
  if (has("loss")) return { quantity: "mass", change: "loss", ...(relative && { relative }) };
  if (has("mass")) {
    return { quantity: "mass", ...(has("change") && { change: "change" as const }), ...(relative && { relative }) };
  }
  if (has("time")) return { quantity: "time", weak: words.includes("temps") || words.includes("tempo") };
  if (of !== undefined) return { quantity: "temperature", of, weak: true, needsUnit: true };
  return has("index") ? { quantity: "index" } : null;
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
    .split(/[^\p{L}\p{N}#]+/u)
    .filter((word) => word !== "");
}
