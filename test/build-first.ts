/** The programs under test are made from what the build puts into dist. */
export default async function buildFirst(): Promise<void> {
  await import('../scripts/build-if-stale.mjs' as string);
}
