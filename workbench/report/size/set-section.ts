export const setSection = (_size: unknown): string => '';
