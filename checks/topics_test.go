package checks

import (
	"testing"

	"lugmark/core/bank"
)

// A field that a topic forgot could never be entered; one that stands in two
// would be asked twice.
func TestEveryEntryStandsInOneTopic(t *testing.T) {
	for _, f := range Fields() {
		for _, kind := range f.Of {
			if len(TopicsOf(kind, f.Stage)) == 0 || f.Kind == Drawing || f.Kind == Number && f.Round || f.ID == closed.ID || f.ID == lastGap.ID {
				continue
			}
			var in []string
			for _, topic := range TopicsOf(kind, f.Stage) {
				for _, has := range topic.Fields {
					if has.Spec == f.Spec {
						in = append(in, topic.ID)
					}
				}
			}
			if len(in) != 1 {
				t.Errorf("%s of %s stands in %v", f.ID, kind, in)
			}
		}
	}
}

func TestTopicsHaveOnlyFieldsOfTheirKindAndStage(t *testing.T) {
	seen := map[string]bool{}
	for _, topic := range topics {
		at := string(topic.Of) + "/" + string(topic.Stage) + "/" + topic.ID
		if seen[at] {
			t.Errorf("%s stands twice", at)
		}
		seen[at] = true
		for _, f := range topic.Fields {
			if f.Stage != topic.Stage || !f.Has(topic.Of) {
				t.Errorf("%s: %s is of %s and of %v", at, f.ID, f.Stage, f.Of)
			}
		}
	}
	if TopicOf(bank.KindBank, liftReach.Field) != "lift" || TopicOf(bank.KindSite, siteKind.Field) != "" {
		t.Error("a field is not found in its topic")
	}
}
