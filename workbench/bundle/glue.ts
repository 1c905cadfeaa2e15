/** What ties the program to the interpreter: timer, storage, pins. */
import type { BoardPlan } from '../../firmware/main/board-plan.ts';

/** Name of the running program's file, as `load` leaves it on the board. */
const RUNNING_FILE = '"taut."+require("Storage").read("taut.run")';
/** Time for the reply to leave before a restart, ms. */
const RELOAD_MS = 100;
/** Attenuation that the interpreter sets by itself, mV of full scale. */
const DEFAULT_ATTENUATION_MV = 3600;

/** An object with the functions of a BoardDevice. */
export function deviceText(plan: BoardPlan, tickName: string, timer: string): string {
  const periodMs = 1000 / plan.frameRateHz;
  return `{storage:slotStorageOf(require("Storage")),crc32:E.CRC32,textCrc:E.CRC32,\
programCrc:function(){var c=E.CRC32(require("Storage").read(${RUNNING_FILE})||"");return c<0?c+4294967296:c},\
startTicks:function(){${timer}=setInterval(${tickName},${periodMs})},\
stopTicks:function(){if(${timer})clearInterval(${timer});${timer}=0},\
reload:function(){setTimeout(load,${RELOAD_MS})}}`;
}

export function factsText(plan: BoardPlan): string {
  const { programId, settingsId, rightHand } = plan.facts;
  return `{programId:${programId},settingsId:${settingsId},rightHand:${rightHand}}`;
}

/** Statements that set the board up. The console stays silent: an echo would stand between the frames. */
export function setUpText(plan: BoardPlan): string {
  let text = 'echo(0);';
  for (const pin of plan.buttonPins) text += `pinMode(${pin},"input_pullup");`;
  for (const pin of plan.selectPins) text += `pinMode(${pin},"output");`;
  if (plan.attenuationMv !== DEFAULT_ATTENUATION_MV) {
    const pins = new Set(plan.fingers.map((f) => f.pin));
    for (const pin of pins) text += `ESP32.setAtten(${pin},${plan.attenuationMv});`;
  }
  if (plan.frameUart !== 'console') {
    text += `Serial2.setup(${plan.frameUart.baud},{tx:${plan.frameUart.txPin}});`;
  }
  if (plan.watchdogS > 0) text += `E.enableWatchdog(${plan.watchdogS});`;
  return text;
}
