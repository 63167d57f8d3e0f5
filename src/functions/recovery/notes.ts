/** Notes that the recovery functions share. */
export const RECOVERY_NOTES: readonly string[] = [
  'The rig begins with a part of kind machine: Speed is its swept volume flow, Ultimate the lowest suction pressure, and where known Clearance, Efficiency, Liquid rate and Approach (how much warmer than Ambient its condenser is). It condenses at Ambient and the approach; the discharge pressure matters with a Clearance only.',
  'The time is to the level Recover to (absolute, default 0 psi gauge) with all liquid gone. A cold liquid can hold the pressure below the level: that is not the end, since the pressure comes back.',
  'Recover as is vapour, liquid or push-pull. Heat is needed with vapour: the heat conductance from the surroundings to the liquid in W/K. As a start: 10 W/K for each square metre of wetted surface in still air (common practice, no source), many times that where a fan or a water pump runs.',
  'While liquid is left it boils at its own temperature: it pays with what flows in from Ambient, its own heat and that of the Metal, so that it cools and the pressure falls. Vapour in the system, the rig and the suction is at Ambient; its density is that of the real gas.',
  'Zeotropic blends keep the composition of the charge: vapour leaves at the dew line, liquid at the bubble line. Real vapour is at first richer in the light parts and at a higher pressure, so that real recovery begins faster; charge such blends anew after a part was taken.',
  'Liquid flows through all parts of the rig with the sum of their drops at p1 - p2, at most p1 - F_F pv (it flashes and chokes): F_F = 0.96 - 0.28 sqrt(pv/pc). In liquid mode the machine takes what its displacement sweeps of the throttled liquid, and its Liquid rate at most. In push-pull it draws vapour from the cylinder, at Cylinder temperature (default Ambient), and pushes to 3.9 MPa at most.',
  'A larger charge is never out sooner and a wider rig is never later. A warmer day is never later as vapour (with a Clearance it can be, by its discharge pressure); as liquid or by push-pull it can be, since denser vapour is left for the second part.',
  'Left out: change of cylinders, their filling and cooling, refrigerant dissolved in oil, liquid that stays trapped, heads of liquid, and stops of the machine. Carbon dioxide that would freeze to dry ice is a fault.',
];

export const RECOVERY_SOURCES: readonly string[] = [
  'Refrigerant properties: tables made from equations of state, see REFRIGERANT',
  'Re-expansion of the clearance volume: textbooks of refrigeration; F_F and valves: IEC 60534-2-1',
];

/** A machine, a small hose on a fitted core, and a wide hose without it. */
export const EXAMPLE_MACHINES =
  '{"Rig","Part","Kind","Bore (mm)","Length (m)","Speed (m3/h)","Ultimate (kPa)","Efficiency";' +
  '"small","machine","machine","","",3,20,0.8;' +
  '"small","small hose","hose",4.8,1.5,"","","";' +
  '"small","core","core",1.6,0.006,"","","";' +
  '"wide","machine","machine","","",3,20,0.8;' +
  '"wide","wide hose","hose",8,1.5,"","",""}';
