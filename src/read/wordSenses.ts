/** What a word in the heading of a column can mean. */
export type Sense =
  | "temperature"
  | "time"
  | "mass"
  | "change"
  | "loss"
  | "relative"
  | "derivative"
  | "heat"
  | "index"
  | "other"
  | "vessel"
  | "sample"
  | "programme"
  | "furnace"
  | "reference";

// Words of English, German, French, Spanish, Portuguese, Italian and Polish, in lower case and without accents.
const words: [Sense, string][] = [
  ["temperature", "temp tmp tsample tprobe tprog tfurnace tref"],
  ["time", "time zeit temps tiempo tempo czas uhrzeit elapsed dauer duree duration"],
  [
    "mass",
    "mass masse masa massa weight wt gewicht gew poids peso waga ciezar tg tga thermogravimetry thermogravimetrie einwaage masy mas residue residuo residu ruckstand rest m massique massico massica masico masica masowy masowa",
  ],
  [
    "change",
    "change changes variation variazione variacao variacion anderung aenderung zmiana zmiany delta difference diff dm dw δ δm",
  ],
  ["loss", "loss losses lost verlust perte pertes perdida perda perdita ubytek utrata abnahme"],
  [
    "relative",
    "fraction frac relative relativ relativa relativo rel ratio anteil fraccion fracao frazione ulamek normalised normalized norm normiert percent pct percentage prozent residual remaining restmasse",
  ],
  [
    "derivative",
    "dtg dtga deriv derivative derivata derivada derivee ableitung pochodna ddtg dmdt rate vitesse velocidad velocidade velocita geschwindigkeit predkosc szybkosc",
  ],
  [
    "heat",
    "dsc dta sdta heatflow warmestrom waermestrom warmefluss heat chaleur calor calore ciepla enthalpy microvolt thermospannung",
  ],
  [
    "index",
    "index idx no nr n number nummer numero numer point points punkt messpunkt punto ponto lp row zeile ligne fila linha riga wiersz lfd # id count i",
  ],
  [
    "other",
    "error err fehler erreur errore erro blad std sd stdev deviation uncertainty unsicherheit sigma noise status segment seg step stage cycle event marker flow purge pressure druck gas voltage current humidity abschnitt schritt etape etapa stadio faza krok durchfluss debit caudal vazao flusso przeplyw power leistung puissance potencia potenza moc date datum fecha data dtemp valve alarm comment remark bemerkung ambient room raum cooling water gastemp balance waage housing coolant blank buoyancy auftrieb correction baseline heizrate heating",
  ],
  ["vessel", "crucible pan tare tiegel creuset crisol cadinho crogiolo tygiel tygla container holder"],
  ["sample", "sample specimen probe proben echantillon muestra amostra campione probki probka tsample tprobe ts"],
  [
    "programme",
    "program programme programmed programm prog setpoint set setvalue soll sollwert target nominal consigne programada programado programmata programowana zadana consigna impostata tprog programmee programa",
  ],
  ["furnace", "furnace oven ofen four horno forno piec pieca heater heizer tfurnace block kiln chamber kammer"],
  ["reference", "reference ref referenz referencia riferimento odniesienia tref vergleich"],
];

/** Beginnings and ends of compound words: Ofentemperatur, Massenverlust. */
const beginnings: [Sense, string][] = [
  ["sample", "proben sample specimen"],
  ["programme", "programm soll"],
  ["furnace", "ofen"],
  ["reference", "referenz vergleichs"],
  ["mass", "massen masse gewichts gewicht"],
  ["relative", "rest"],
  ["vessel", "tiegel"],
];
const ends: [Sense, string][] = [
  ["temperature", "temperatur temperature temperatura temperatury temp"],
  ["mass", "masse gewicht"],
  ["loss", "verlust abnahme"],
  ["change", "anderung aenderung"],
  ["relative", "anteil"],
  ["time", "zeit"],
  ["derivative", "rate geschwindigkeit"],
];

const list = (entries: [Sense, string][]): [Sense, string][] =>
  entries.flatMap(([sense, all]) => all.split(" ").map((word): [Sense, string] => [sense, word]));
const whole = new Map<string, Sense[]>();
for (const [sense, word] of list(words)) whole.set(word, [...(whole.get(word) ?? []), sense]);
const [asBeginning, asEnd] = [list(beginnings), list(ends)];

/**
 * All that a word can mean, given in lower case and without accents; compound words have the senses of their parts.
 *
 * @example
 * ```ts
 * wordSenses("ofentemperatur"); // ["furnace", "temperature"]
 * ```
 */
export function wordSenses(word: string): Sense[] {
  const known = whole.get(word) ?? [];
  const begins = asBeginning.filter(([, part]) => word.startsWith(part) && word.length > part.length);
  const ending = asEnd.filter(([, part]) => word.endsWith(part));
  // A beginning alone says nothing: "restart", "solltest".
  const parts = ending.length > 0 ? [...begins, ...ending] : [];
  return [...new Set([...known, ...parts.map(([sense]) => sense)])];
}
