package sample

// mast is four blocks in parallel at a mast, resting until the evening.
const mast = `{"lugmark": "job/1", "title": "Invented mast", "now": "2026-11-25T15:10:00+01:00",
 "layout": {"series": 1, "parallel": 4, "join": "groups", "takeoff": "diagonal"},
 "sheets": {"sheet1": {"blocks": ["b1", "b2", "b3", "b4"], "model": "Invented 230", "page": "p. 7",
  "capacity": "230 Ah", "charge-voltage-max": "14.6 V", "absorption-voltage": "14.2 V", "charge-max": "115 A", "discharge-max": "200 A",
  "series-max": 4, "parallel-max": 4, "charge-temp-min": "0 C", "torque": "12 N.m"}},
 "parts": {"p1": {"name": "Tomas Ilk", "role": "lead"}, "site": {"kind": "building"},
  "bank": {"design-current": "60 A"}, "charger1": {"current-max": "60 A"},
  "fuse.main": {"rating": "160 A", "voltage": "32 V", "breaking": "50000 A"}},
 "meters": {"m1": {"measures": "V", "percent": 0.05, "counts": 3, "step": "0.001 V", "range": "50 V", "due": "2027-06-30"}},
 "use": {"V": "m1"},
 "readings": {"stage.receive/hazards-read": "yes",
  "b1/arrival-voltage": "13.214 V", "b2/arrival-voltage": "13.221 V", "b3/arrival-voltage": "13.217 V", "b4/arrival-voltage": "13.219 V",
  "stage.match/hazards-read": "yes", "bank/last-current": "2026-11-25T09:40:00+01:00",
  "b3/temperature": {"skip": "later", "why": "wait", "until": "2026-11-25T21:40:00+01:00"}}}
`
