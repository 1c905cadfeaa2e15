/** Boards that the models know. */
export type BoardId = 'esp32' | 'esp32-s3' | 'esp32-c3';
export const BOARD_IDS: BoardId[] = ['esp32', 'esp32-s3', 'esp32-c3'];
