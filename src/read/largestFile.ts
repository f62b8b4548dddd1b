/**
 * Largest file that is opened, bytes. A run of 24 h at ten readings a second with eight columns has about 60 MB; what is
 * twice as large is no run. The memory needed stays below ten times the file.
 */
export const largestFile: number = 128_000_000;
