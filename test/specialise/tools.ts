import { parseSource } from '../../specialise/source.ts';
import { specialise } from '../../specialise/specialise.ts';
import { Native, Slot, slotsOf } from '../../specialise/tree.ts';
import type { Tools } from './sample.ts';

export const tools: Tools = { parseSource, specialise, Slot, Native, slotsOf };
