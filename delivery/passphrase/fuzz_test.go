package passphrase

import "testing"

// FuzzRead: what is kept is a hash at a cost within reason, or refused.
func FuzzRead(f *testing.F) {
	for _, text := range []string{"$argon2id$v=19$m=65536,t=3,p=4$c2FsdHNhbHQ$aGFzaGhhc2hoYXNoaGFzaA", "$argon2i$v=19$m=1,t=1,p=1$$", "$argon2id$v=19$m=4294967295,t=1,p=1$YQ$YQ", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, _, hash, err := read(text)
		if err == nil && (c.memory > mostMemory || c.passes > mostPasses || c.lanes == 0 || len(hash) == 0) {
			t.Errorf("%q is read as a cost of %+v", text, c)
		}
	})
}
