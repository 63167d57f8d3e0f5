/** What holds for all charging functions. */
export const CHARGING_NOTES: readonly string[] = [
  'Charging is driven by pressure alone: a pump or machine in the first row of the rig is left out, and the other parts are the way from the cylinder to the system. The system starts under vacuum; its inside volume is Volume of the conditions.',
  'Liquid passes all parts as one restriction with choked flashing: sum of the drops = min(p1 - p2, p1 - F_F pv), F_F = 0.96 - 0.28 sqrt(pv/pc). It is boiling as it leaves the cylinder, so that flashing limits the flow until the system has filled to F_F pv. Homogeneous equilibrium, where vapour forms at once all along, passes half to two thirds of this through a fitted core and three quarters to nine tenths without one, so that liquid charging may take up to twice as long as told: see the method.',
  'Cylinder and system are each in equilibrium at their own energy. The cylinder cools as its liquid boils to fill the room of what left; Cylinder heat brings heat from air or bath. In the system Heat brings heat from Ambient; at 0 it is insulated and its metal holds no heat, which is the quickest it can be.',
  'A cylinder is 80 % full of liquid at the warmer of its own temperature and Ambient (common practice). A bare cylinder in still air takes some 3 W/K, in moved water some tens (estimates, no source).',
  'Charged as vapour, the system stays at Ambient until vapour fills it; then it must condense, and Heat carries that off. The rig is at the temperature of the cylinder, its vapour a real gas. A blend with a glide is charged as liquid only.',
  'It stops short where the pressures meet, so nearly that the whole charge would take over a day, and heat does not part them at that moment. A weak bath would move the rest in hours; that is not waited for. Charging by the running compressor is not covered.',
  'Heads of liquid, oil, what the hoses hold, and air left in the system are left out. Charge limits of rooms and appliances are not checked here.',
];

export const CHARGING_SOURCES: readonly string[] = [
  'IEC 60534-2-1: liquid critical pressure ratio factor F_F, and flow through valves',
  'Churchill, Chem. Eng. 84(24) (1977) 91: friction factor',
  'Energy balance of open systems, textbook thermodynamics',
];
