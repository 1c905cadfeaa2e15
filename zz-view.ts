import { writeFileSync } from 'node:fs';
import { defaultRig } from './sim/rig/default-rig.ts';
import { setDimensions } from './sim/sizing/unit/set-dimensions.ts';
import { USUAL_CHOICES } from './sim/sizing/unit/unit-dimensions.ts';
import { makePrintableSet } from './workbench/printables/printable-set.ts';
import { assemble } from './workbench/printables/assembly.ts';
import { loadKit } from './workbench/printables/kit.ts';
const rig = defaultRig();
const kit = await loadKit();
const place = (process.argv[2] ?? 'beside') as 'beside'|'inside';
const dims = setDimensions(rig, 1.1, {...USUAL_CHOICES, springPlace: place});
type M = {positions: Float32Array, triangles: Uint32Array};
function svg(meshes: {m:M,color:[number,number,number]}[], az:number, el:number, size=420): string {
  const ca=Math.cos(az),sa=Math.sin(az),ce=Math.cos(el),se=Math.sin(el);
  const proj=(x:number,y:number,z:number)=>{const X=ca*x-sa*y, Y=sa*x+ca*y; return [X, -(ce*z+se*Y) , (ce*Y - se*z)] as const;};
  const tris:{d:number,s:string,p:number[]}[]=[]; let minX=1e9,maxX=-1e9,minY=1e9,maxY=-1e9;
  for(const {m,color} of meshes){const P=m.positions,T=m.triangles;
   for(let i=0;i<T.length;i+=3){const c=[0,1,2].map(k=>{const j=3*T[i+k];return [P[j],P[j+1],P[j+2]]});
    const u=[0,1,2].map(k=>c[1][k]-c[0][k]),v=[0,1,2].map(k=>c[2][k]-c[0][k]);
    const n=[u[1]*v[2]-u[2]*v[1],u[2]*v[0]-u[0]*v[2],u[0]*v[1]-u[1]*v[0]];const l=Math.hypot(...n as [number,number,number])||1;
    const pr=c.map(q=>proj(q[0],q[1],q[2])); const area=(pr[1][0]-pr[0][0])*(pr[2][1]-pr[0][1])-(pr[2][0]-pr[0][0])*(pr[1][1]-pr[0][1]);
    if(area>=0) continue; // back (y down)
    const L=Math.max(0,(n[0]*0.3-n[1]*0.5+n[2]*0.8)/l); const s=0.35+0.65*L;
    for(const q of pr){minX=Math.min(minX,q[0]);maxX=Math.max(maxX,q[0]);minY=Math.min(minY,q[1]);maxY=Math.max(maxY,q[1]);}
    tris.push({d:(pr[0][2]+pr[1][2]+pr[2][2])/3,s:`rgb(${color.map(k=>Math.round(k*s)).join(',')})`,p:pr.flatMap(q=>[q[0],q[1]])});
   }}
  // z-buffer raster
  const sc=(size-20)/Math.max(maxX-minX,maxY-minY); const W=size,H=Math.ceil((maxY-minY)*sc)+20;
  return JSON.stringify({W,H,tris:null});
}
// z-buffer raster to PPM->PNG through chromium is heavy: write PPM and convert
function raster(meshes: {m:M,color:[number,number,number]}[], az:number, el:number, size:number){
  const ca=Math.cos(az),sa=Math.sin(az),ce=Math.cos(el),se=Math.sin(el);
  const pts:number[][][]=[];const cols:number[][]=[];let minX=1e9,maxX=-1e9,minY=1e9,maxY=-1e9;
  for(const {m,color} of meshes){const P=m.positions,T=m.triangles;
   for(let i=0;i<T.length;i+=3){const c=[0,1,2].map(k=>{const j=3*T[i+k];return [P[j],P[j+1],P[j+2]]});
    const u=[0,1,2].map(k=>c[1][k]-c[0][k]),v=[0,1,2].map(k=>c[2][k]-c[0][k]);
    const n=[u[1]*v[2]-u[2]*v[1],u[2]*v[0]-u[0]*v[2],u[0]*v[1]-u[1]*v[0]];const l=Math.hypot(n[0],n[1],n[2])||1;
    const pr=c.map(([x,y,z])=>{const X=ca*x-sa*y,Y=sa*x+ca*y;return [X,-(ce*z+se*Y),ce*Y-se*z]});
    const nY=sa*n[0]+ca*n[1]; const vx=(ca*n[0]-sa*n[1])/l, up=(ce*n[2]+se*nY)/l, toward=-(ce*nY-se*n[2])/l;
    if(toward<=0) continue;
    const s=0.25+0.75*Math.max(0,0.35*up+0.75*toward-0.3*vx);
    for(const q of pr){minX=Math.min(minX,q[0]);maxX=Math.max(maxX,q[0]);minY=Math.min(minY,q[1]);maxY=Math.max(maxY,q[1]);}
    pts.push(pr);cols.push(color.map(k=>Math.min(255,k*s)));
   }}
  const sc=(size-16)/Math.max(maxX-minX,maxY-minY);const W=Math.ceil((maxX-minX)*sc)+16,H=Math.ceil((maxY-minY)*sc)+16;
  const img=Buffer.alloc(W*H*3,250);const zb=new Float64Array(W*H).fill(1e9);
  pts.forEach((pr,t)=>{const q=pr.map(p=>[(p[0]-minX)*sc+8,(p[1]-minY)*sc+8,p[2]]);
   const x0=Math.floor(Math.min(...q.map(p=>p[0]))),x1=Math.ceil(Math.max(...q.map(p=>p[0]))),y0=Math.floor(Math.min(...q.map(p=>p[1]))),y1=Math.ceil(Math.max(...q.map(p=>p[1])));
   const D=(q[1][1]-q[2][1])*(q[0][0]-q[2][0])+(q[2][0]-q[1][0])*(q[0][1]-q[2][1]); if(Math.abs(D)<1e-9)return;
   for(let y=y0;y<=y1;y++)for(let x=x0;x<=x1;x++){if(x<0||y<0||x>=W||y>=H)continue;const a=((q[1][1]-q[2][1])*(x-q[2][0])+(q[2][0]-q[1][0])*(y-q[2][1]))/D,b=((q[2][1]-q[0][1])*(x-q[2][0])+(q[0][0]-q[2][0])*(y-q[2][1]))/D,c=1-a-b;
    if(a<-.001||b<-.001||c<-.001)continue;const z=a*q[0][2]+b*q[1][2]+c*q[2][2];const k=y*W+x;if(z<zb[k]){zb[k]=z;for(let j=0;j<3;j++)img[3*k+j]=cols[t][j];}}});
  return {W,H,img};
}
import { deflateSync } from 'node:zlib';
function png({W,H,img}:{W:number,H:number,img:Buffer}){const crcT=new Int32Array(256).map((_,n)=>{let c=n;for(let k=0;k<8;k++)c=c&1?0xedb88320^(c>>>1):c>>>1;return c});const crc=(b:Buffer)=>{let c=-1;for(const x of b)c=crcT[(c^x)&255]^(c>>>8);return(c^-1)>>>0};
 const chunk=(t:string,d:Buffer)=>{const h=Buffer.alloc(8);h.writeUInt32BE(d.length);h.write(t,4);const e=Buffer.alloc(4);e.writeUInt32BE(crc(Buffer.concat([h.subarray(4),d])));return Buffer.concat([h,d,e])};
 const ih=Buffer.alloc(13);ih.writeUInt32BE(W);ih.writeUInt32BE(H,4);ih[8]=8;ih[9]=2;const raw=Buffer.alloc((3*W+1)*H);for(let y=0;y<H;y++)img.copy(raw,y*(3*W+1)+1,y*3*W,(y+1)*3*W);
 return Buffer.concat([Buffer.from([137,80,78,71,13,10,26,10]),chunk('IHDR',ih),chunk('IDAT',deflateSync(raw)),chunk('IEND',Buffer.alloc(0))]);}
const set = await makePrintableSet(rig,dims);
const G:[number,number,number]=[120,190,165];
const want=['spool','bracket','lid','pot-cap','plate','rail-key','wire-channel','ring-index-proximal','cap-index'];
for(const p of set) if(want.includes(p.name)){ for(const [i,[az,el]] of [[0.6,0.75],[0.6,-0.7]].entries()) writeFileSync(`/tmp/v-${place}-${p.name}-${i}.png`,png(raster([{m:p.surface,color:G}],az,el,520))); }
const toM=(s:any):M=>{const m=s.getMesh();return{positions:m.vertProperties,triangles:m.triVerts}};
const asm=assemble(kit,rig,dims);
const col=(n:string):[number,number,number]=>n.startsWith('pot')&&!n.startsWith('pot cap')?[90,90,110]:n.startsWith('spool')?[240,160,90]:n.startsWith('plate')?[200,205,200]:n.startsWith('lid')?[170,210,240]:n.startsWith('pot cap')?[210,170,220]:G;
writeFileSync(`/tmp/v-${place}-asm.png`,png(raster(asm.map(p=>({m:toM(p.solid),color:col(p.name)})),0.5,0.7,1300)));
const one=asm.filter(p=>/ index$/.test(p.name)&&!/^lid|^cap|^ring/.test(p.name)||/^(plate|rail|wire)/.test(p.name)&&false);
writeFileSync(`/tmp/v-${place}-one.png`,png(raster(one.map(p=>({m:toM(p.solid),color:col(p.name)})),-0.9,0.4,800)));
const box=kit.Manifold.cube([400,400,400]).translate([-200,0,-200]);
writeFileSync(`/tmp/v-${place}-cut.png`,png(raster(one.concat(asm.filter(p=>p.name==='lid index'||p.name==='plate')).map(p=>({m:toM(p.solid.subtract(box).subtract(kit.Manifold.cube([400,400,400]).translate([53,-200,-200])).subtract(kit.Manifold.cube([200,400,400]).translate([-173,-200,-200]))),color:col(p.name)})),Math.PI,0.0,900)));
let bad=0;const bb=asm.map(p=>p.solid.boundingBox());const t=performance.now();let n=0;
for(let i=0;i<asm.length;i++)for(let j=i+1;j<asm.length;j++){if([0,1,2].some(k=>bb[i].max[k]<bb[j].min[k]||bb[j].max[k]<bb[i].min[k]))continue;n++;const v=asm[i].solid.intersect(asm[j].solid).volume();if(v>1e-6){bad++;console.log(asm[i].name,asm[j].name,v);}}
console.log('pairs',n,'bad',bad,(performance.now()-t).toFixed(0),'ms');
console.log(set.map(p=>`${p.name} x${p.count} ${p.volumeMm3.toFixed(0)} ${p.sizeMm.map(v=>v.toFixed(1)).join('x')} ${p.surface.triangles.length/3}`).join('\n'));
