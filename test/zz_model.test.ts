import { readDocument } from "../src/files/read.js";
import { parseAirframe } from "../src/airframe/resolve.js";
import { craftUnder, STANDARD_DAY, GRAVITY } from "../src/airframe/craft.js";
import { hoverTrim, trimAt } from "../src/airframe/trim.js";
import { speedTimeConstant } from "../src/airframe/motor.js";
import { readdirSync } from "node:fs";
import { test } from "vitest";
test("x", () => {
  for (const f of readdirSync("models")) {
    let a; try { a = parseAirframe(readDocument("models/"+f)); } catch(e:any) { console.log(e.message, e.name==="InputError"?"":e.stack); continue; }
    for (const charge of [1, .25]) {
    const c = craftUnder(a, {...STANDARD_DAY, charge});
    const h = hoverTrim(c); const t = trimAt(c, 1);
    const T = t.speeds.reduce((s,w)=>s+c.thrustStatic*w*w,0);
    const tau = speedTimeConstant(a.motor,c.rotorInertia,c.torqueStatic,h!.speeds[0]!);
    // authority & rough Ku
    const auth=(ax:0|1)=>{const w=h!.speeds[0]!; const {constant,resistance}=a.motor; const spv=constant/resistance/(constant**2/resistance+2*c.torqueStatic*w); const tpd=2*c.thrustStatic*w*spv*h!.volts; return c.arms.reduce((s,r,i)=>s+(ax===0?r[1]*c.mixer.roll[i]!:-r[0]*c.mixer.pitch[i]!)*tpd,0)/(ax===0?c.inertia.xx:c.inertia.yy)};
    const L = a.controller.latency+.5/a.controller.rate+a.sensing.lowPass.reduce((s,l)=>s+Math.SQRT2/(2*Math.PI*l.cutoff)*(l.order===2?1:1/Math.SQRT2),0);
    let lo=1,hi=2000; for(let k=0;k<100;k++){const w=(lo+hi)/2; if(Math.PI/2+Math.atan(w*tau)+w*L>Math.PI) hi=w; else lo=w;}
    const Ku=lo*Math.sqrt(1+(lo*tau)**2);
    console.log(f, charge, `mass ${(a.mass*1000).toFixed(0)} g com ${a.centreOfMass.map(x=>(x*1000).toFixed(1))} mm I ${[a.inertia.xx,a.inertia.yy,a.inertia.zz,a.inertia.xz].map(x=>(x*1e6).toFixed(0))}e-6 hover ${(h!.throttle*100).toFixed(1)} % ${(h!.speeds[0]!*60/2/Math.PI).toFixed(0)} rpm duties ${h!.duties.map(x=>x.toFixed(3))} i ${h!.currents[0]!.toFixed(2)} T/W ${(T/a.mass/GRAVITY).toFixed(2)} full ${(t.speeds[0]!*60/2/Math.PI).toFixed(0)} rpm ${t.currents[0]!.toFixed(1)} A V ${t.volts.toFixed(2)} tau ${(tau*1e3).toFixed(1)} ms K ${auth(0).toFixed(0)} ${auth(1).toFixed(0)} Pu roll ${(Ku/auth(0)/0.0057296*1).toFixed(1)} pitch ${(Ku/auth(1)/.0057296).toFixed(1)} f ${(lo/2/Math.PI).toFixed(1)} Hz J0 ${a.propeller.zeroThrustAdvance.toFixed(3)} slope ${a.propeller.cpSlope.toFixed(4)}`, a.defaulted);
    }
  }
});
