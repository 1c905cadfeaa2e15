/** Programs to compare with: the least that a frame needs, and the same chain written by people. */
import type { FrameProgram } from './callgrind.ts';

/** Reads and sends; no chain. */
export const floor: FrameProgram = {
  text: `var p=new Uint8Array(40),r=new Float32Array(40),u=new Uint8Array(20),m=E.mapInPlace.bind(E,p,r,analogRead),z=Serial1.write.bind(Serial1,u);
function F(){m();z()}`,
  call: 'F()',
};

/** One flat function, names short, numbers written in: what a patient person would write for one rig, once. */
export const flat: FrameProgram = {
  text: `var e,w,x0=0,x1=0,x2=0,x3=0,x4=0,s=E.sum,S0,S1,S2,S3,S4,b=new ArrayBuffer(20),u=new Uint8Array(b),k=new Uint8Array(b,0,18),
m=E.mapInPlace,q=E.CRC32,t=getTime,z=Serial1.write.bind(Serial1),n=0,P=new Uint8Array(40),R=new Float32Array(40);
w=new Uint16Array(b);u[0]=245;u[14]=u[15]=128;u[16]=48;S0=R.subarray(0,8);S1=R.subarray(8,16);S2=R.subarray(16,24);S3=R.subarray(24,32);S4=R.subarray(32,40);
function F(){m(P,R,analogRead);u[1]=++n;w[1]=t()*4e3;
${[0, 1, 2, 3, 4]
  .map((i) => `e=s(S${i})-x${i};if(e*e>.0004){w[${i + 2}]=(x${i}+=e-e/(1.0625+e*e*9))*9000-1000}`)
  .join('\n')}
w[9]=q(k)>>>10;z(u)}`,
  call: 'F()',
};
