package sample

// jetty is two strings of two on a jetty, half done: a pair that a meter
// with two decimals cannot judge, and a block that is clearly too low.
const jetty = `{"lugmark": "job/1", "title": "Invented jetty", "now": "2026-11-25T12:00:00+01:00",
 "layout": {"series": 2, "parallel": 2, "join": "strings", "takeoff": "one-end"},
 "sheets": {"sheet1": {"blocks": ["b1", "b2", "b3", "b4"], "model": "Invented 100", "page": "p. 12",
  "capacity": "100 Ah", "charge-voltage-max": "14.6 V", "absorption-voltage": "14.2 V", "tail-current": "5 A",
  "charge-max": "50 A", "discharge-max": "100 A", "short-trip": "400 A", "series-max": 4, "parallel-max": 4,
  "charge-temp-min": "0 C", "charge-temp-max": "45 C", "torque": ["8 N.m", "10 N.m"]}},
 "parts": {"p1": {"name": "Ines Varga", "role": "technician"}, "site": {"kind": "boat"},
  "bank": {"design-current": "80 A"},
  "b1": {"serial": "IV-2601", "date-code": "2026-05", "firmware": "2.1"},
  "b2": {"serial": "IV-2602", "date-code": "2026-05", "firmware": "2.1"},
  "b3": {"serial": "IV-2603", "date-code": "2026-05", "firmware": "2.1"},
  "b4": {"serial": "IV-2604", "date-code": "2026-05", "firmware": "2.1"},
  "charger1": {"current-max": "30 A"}, "inverter1": {"power": "1500 W"},
  "cable1": {"size": "35 mm2", "standard": "IEC 60228", "insulation": "105 C"},
  "b1.n~b2.p": {"cable": "cable1", "length": "0.25 m"}, "b3.n~b4.p": {"cable": "cable1", "length": "0.25 m"},
  "sA.p~sB.p": {"cable": "cable1", "length": "0.40 m"}, "sA.n~sB.n": {"cable": "cable1", "length": "0.40 m"},
  "fuse.main": {"rating": "125 A", "voltage": "58 V", "breaking": "20000 A"}},
 "meters": {"m1": {"measures": "V", "percent": 0.5, "counts": 3, "step": "0.01 V", "range": "60 V", "due": "2027-03-01"},
  "m2": {"measures": "V", "percent": 0.5, "counts": 3, "step": "0.1 mV", "range": "600 mV", "due": "2027-03-01"},
  "m3": {"measures": "C", "percent": 0.5, "counts": 1, "step": "1 C", "due": "2027-03-01"},
  "w1": {"measures": "N.m", "max": "25 N.m", "percent": 4, "due": "2027-03-01"}},
 "use": {"V": "m1", "C": "m3", "N.m": "w1"},
 "readings": {"stage.receive/hazards-read": "yes",
  "b1/arrival-voltage": "13.27 V", "b2/arrival-voltage": "13.28 V", "b3/arrival-voltage": "13.27 V", "b4/arrival-voltage": "12.95 V",
  "stage.match/hazards-read": "yes", "bank/last-current": "2026-11-24T20:00:00+01:00",
  "b1/temperature": "18 C", "b2/temperature": "18 C", "b3/temperature": "19 C", "b4/temperature": "18 C",
  "b1/rest-voltage": "13.28 V", "b2/rest-voltage": "13.29 V", "b3/rest-voltage": "13.28 V", "b4/rest-voltage": "12.91 V",
  "b2/gap-voltage": {"n": "4.2 mV", "m": "m2"}}}
`
