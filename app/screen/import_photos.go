package screen

import (
	"lugmark/core/job"
	"lugmark/core/say"
)

var sayBroughtPhotos = say.Phrase{Key: "screen.file.brought-photos", English: "{brought} Missing photos that came with it: {n}."}

// importBytes is how much one act of an import holds before the next begins
// [bytes]: what is kept in one transaction is in memory at once.
const importBytes = 4 << 20

// act returns the act that takes in what comes next.
func (p *arrival) act() *job.Act {
	last := len(p.acts) - 1
	if last >= 0 && len(p.acts[last].Events) < importBatch {
		size := 0
		for _, b := range p.acts[last].Blobs {
			size += len(b.Data)
		}
		if size < importBytes {
			return &p.acts[last]
		}
	}
	p.acts = append(p.acts, job.Act{Job: p.id})
	return &p.acts[last+1]
}

// hiddenPhotos are the pictures of photos that were taken out of view, by their
// sums: one that was erased stays out, also when an old file still has it.
func (j *opened) hiddenPhotos(have []job.Signed) map[string]bool {
	hidden := map[string]bool{}
	for _, signed := range have {
		if e, err := job.Decode(signed.Raw); err == nil {
			if p, is := e.Body.(job.Photo); is {
				hidden[p.Blob.Sum] = true
			}
		}
	}
	for _, x := range j.photosOf("", "") {
		delete(hidden, x.Body.Blob.Sum)
	}
	return hidden
}
