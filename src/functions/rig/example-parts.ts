/**
 * Table arguments of the examples, as array constants that can be typed into any cell: small hose on a fitted core
 * against a wide hose without it.
 */
export const EXAMPLE_PARTS =
  '{"Rig","Part","Kind","Bore (mm)","Length (m)","Speed (cfm)","Ultimate (micron)";' +
  '"small","pump","pump","","",5,20;' +
  '"small","small hose","hose",4.8,1.5,"","";' +
  '"small","core","core",1.6,0.006,"","";' +
  '"wide","pump","pump","","",5,20;' +
  '"wide","wide hose","hose",12.7,1.5,"","";' +
  '"wide","port","port",4.7,"","",""}';
