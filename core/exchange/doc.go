// Package exchange makes two sets of signed events equal: that of a phone and
// that of an office, one job at a time. It decides; others send and store.
//
// On the phone, one round for one job:
//
//	p := exchange.NewPhone(jobID, seal.Verify, held)
//	p.Begin()
//	for ask := p.Next(); ask.Kind != exchange.Nothing; ask = p.Next() {
//		step := p.Answer(ask, send(ask))      // send: whatever carries bytes
//		if step.Keep != nil {
//			keep(*step.Keep)                  // one strict transaction
//			p.Kept(*step.Keep)                // only when it has completed
//		}
//		if step.Wait {
//			break                             // a new round later: see [Pause]
//		}
//	}
//
// A list of briefs ([DecodeList]) asked for at the beginning of a round, and
// handed to [Phone.Heard], spares the jobs in which nothing happened a request.
//
// At the office, inside the transaction that holds the row of the job:
//
//	d := log.Decide(seal.Verify, message.Events)   // nothing is changed yet
//	… store d.Rows and d.Aside, commit, and only then answer log.After(d)
//
// What each ask is answered with, by status:
//
//	push   200 truth; 409 truth, something stands aside; 422 problem, refused
//	pull   200 page; 410 problem, cursor
//	have   200 lack
//	a put  201; 404 no event names it; 422 it has another sum
//	a get  200 and the bytes; 404
//	any    400 syntax; 401 403 not this device; 413 too large; 429 503 later; 507 no room
//
// What the sides may rely on: an event is its exact bytes and its name is their
// hash, so a repeat is no harm and any order will do. The log of a job at the
// office is a list; acc[n] = SHA-256(acc[n-1] || hash[n]), so that a [Cursor]
// names one list of n events and no other. What the office says is the truth of
// now, also when it is less than before: an office that was restored from a
// backup gets what it lost from any phone that has it. Two events in one place
// of a stream never both enter the log; the second is set aside, and told.
//
// The package knows no clock, network, disk or random bytes, does not say who
// may write to a job, and never folds; see core/job.
package exchange
