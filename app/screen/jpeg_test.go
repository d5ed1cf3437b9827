package screen

import (
	"bytes"
	"image"
	"image/jpeg"
	"testing"
)

// inserted puts segments behind the first two bytes of a JPEG file.
func inserted(file []byte, segments ...[]byte) []byte {
	out := bytes.Clone(file[:2])
	for _, s := range segments {
		out = append(out, s...)
	}
	return append(out, file[2:]...)
}

func segment(marker byte, body string) []byte {
	n := len(body) + 2
	return append([]byte{0xFF, marker, byte(n >> 8), byte(n)}, body...)
}

// What tells of place, time and camera goes, what a decoder needs stays; from:
// ITU-T T.81 B.1.1 and the makers of each segment: EXIF and XMP stand in APP1,
// a colour profile in APP2, further pictures in APP2 too.
func TestOnlyPicture(t *testing.T) {
	var made bytes.Buffer
	if err := jpeg.Encode(&made, image.NewRGBA(image.Rect(0, 0, 40, 30)), nil); err != nil {
		t.Fatal(err)
	}
	plain := made.Bytes()
	jfif := segment(0xE0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00")
	profile := segment(0xE2, "ICC_PROFILE\x00\x01\x01 invented")
	adobe := segment(0xEE, "Adobe\x00\x64\x00\x00\x00\x00\x01")
	secret := [][]byte{
		segment(0xE1, "Exif\x00\x00MM GPS of an invented jetty"), segment(0xE1, "http://ns.invented/xap/1.0/\x00 GPS"),
		segment(0xE2, "MPF\x00 more pictures with GPS"), segment(0xED, "captions GPS"), segment(0xFE, "a comment on GPS"), segment(0xEF, "GPS"),
	}
	for name, row := range map[string]struct{ file, want []byte }{
		"as it is":           {plain, plain},
		"with what it needs": {inserted(plain, jfif, profile, adobe), inserted(plain, jfif, profile, adobe)},
		"with secrets":       {inserted(plain, append([][]byte{jfif, profile, {0xFF}}, secret...)...), inserted(plain, jfif, profile)},
	} {
		got, w, h, ok := onlyPicture(row.file)
		if !ok || w != 40 || h != 30 || !bytes.Equal(got, row.want) {
			t.Errorf("%s: %v, %d × %d, %d bytes, want %d", name, ok, w, h, len(got), len(row.want))
		}
		if bytes.Contains(got, []byte("GPS")) {
			t.Errorf("%s: it still tells the place", name)
		}
		if p, err := jpeg.Decode(bytes.NewReader(got)); err != nil || p.Bounds().Dx() != 40 {
			t.Errorf("%s: it can no longer be shown: %v", name, err)
		}
	}
	for name, file := range map[string][]byte{
		"nothing": {}, "a PNG": []byte("\x89PNG\r\n\x1a\n"), "cut": plain[:40], "no picture": {0xFF, 0xD8, 0xFF, 0xD9, 0, 0},
		"a segment without end": inserted(plain[:2], []byte{0xFF, 0xE1, 0xFF, 0xFF, 0}), "a segment too short": inserted(plain[:2], []byte{0xFF, 0xE1, 0, 1, 0}),
		"no marker": inserted(plain[:2], []byte{0, 1, 2, 3, 4}), "a scan before the frame": inserted(plain[:2], segment(0xDA, "x")),
	} {
		if _, _, _, ok := onlyPicture(file); ok {
			t.Errorf("%s passes for a JPEG", name)
		}
	}
}

func FuzzOnlyPicture(f *testing.F) {
	var made bytes.Buffer
	if err := jpeg.Encode(&made, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		f.Fatal(err)
	}
	f.Add(made.Bytes())
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x06Exif\xff\xda\x00\x02"))
	f.Fuzz(func(t *testing.T, file []byte) {
		if clean, _, _, ok := onlyPicture(file); ok {
			if again, _, _, ok := onlyPicture(clean); !ok || !bytes.Equal(again, clean) {
				t.Error("what is clean is cleaned once more")
			}
		}
	})
}
