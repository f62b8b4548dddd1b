import type { Campaign, Plan } from "../../campaign/types.ts";
import type { DrawnFigure } from "../figures/types.ts";

/** What a report is made of. */
export interface Report {
  /** With `decisions` where it was compared. */
  campaign: Campaign;
  /** Figures in the order in which they are to stand. @default none */
  figures?: readonly DrawnFigure[];
  /** Folder or file that the runs come from, as the user named it. */
  source?: string;
  /** What was planned: files left out and remarks about sheet and mix table are told. */
  plan?: Pick<Plan, "unlisted" | "remarks">;
  /** Further remarks, one sentence each. */
  remarks?: readonly string[];
  /** Command that made it, as it was typed. */
  command?: string;
  /** When it was made; without it the same campaign gives the same page to the byte. */
  made?: string;
}
