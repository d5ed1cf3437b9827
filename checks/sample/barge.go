package sample

// barge is sixteen blocks on a barge: the sheets are entered, nothing is read.
const barge = `{"lugmark": "job/1", "title": "Invented barge", "now": "2026-11-25T08:30:00+01:00",
 "layout": {"series": 4, "parallel": 4, "join": "strings", "takeoff": "equal-leads"},
 "sheets": {"sheet1": {"blocks": ["b1", "b2", "b3", "b4", "b5", "b6", "b7", "b8", "b9", "b10", "b11", "b12", "b13", "b14", "b15", "b16"],
  "model": "Invented 200", "page": "p. 9", "capacity": "200 Ah", "charge-voltage-max": "14.6 V", "absorption-voltage": "14.2 V", "tail-current": "10 A",
  "charge-max": "100 A", "discharge-max": "150 A", "series-max": 4, "parallel-max": 4,
  "charge-temp-min": "0 C", "torque": ["9 N.m", "11 N.m"]}},
 "parts": {"p1": {"name": "Mira Okoro", "role": "lead"}, "site": {"kind": "boat"},
  "charger1": {"current-max": "200 A"}, "inverter1": {"power": "8000 W"}},
 "meters": {"m1": {"measures": "V", "percent": 0.05, "counts": 3, "step": "0.001 V", "range": "100 V", "due": "2027-06-30"},
  "w1": {"measures": "N.m", "max": "25 N.m", "percent": 4, "due": "2027-06-30"}},
 "use": {"V": "m1", "N.m": "w1"}}
`
