/**
 * Hidden name under which campaign.json waits to be renamed, as the last of the outputs. Where a process was killed on the way it
 * marks the folder as one of outputs, although campaign.json is not there.
 */
export const unfinishedMark: RegExp = /^\.campaign\.json\.[0-9a-f]{12}\.tmp$/;
