export const setLines = (_size: unknown, _columns: number): string[] => [];
