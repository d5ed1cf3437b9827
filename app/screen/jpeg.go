package screen

import (
	"bytes"
	"encoding/binary"
)

// Markers of a JPEG file (ITU-T T.81, table B.1).
const (
	jpegStart   = 0xD8
	jpegEnd     = 0xD9
	jpegScan    = 0xDA
	jpegAPP0    = 0xE0 // JFIF: how it is to be shown
	jpegAPP2    = 0xE2 // the colour profile, or further pictures
	jpegAPP14   = 0xEE // how the colours are coded
	jpegAPP15   = 0xEF
	jpegComment = 0xFE
)

// onlyPicture returns a JPEG file without what stands beside its picture:
// place, time, camera, previews, comments. What a decoder needs stays. The
// browser that made the file writes none of that; this does not take its word.
// Width and height are in pixels; ok is false when it is no JPEG.
func onlyPicture(file []byte) (clean []byte, width, height int, ok bool) {
	if len(file) < 4 || file[0] != 0xFF || file[1] != jpegStart {
		return nil, 0, 0, false
	}
	clean = append(make([]byte, 0, len(file)), file[:2]...)
	for at := 2; at+4 <= len(file); {
		if file[at] != 0xFF {
			return nil, 0, 0, false
		}
		marker := file[at+1]
		if marker == 0xFF { // filling
			at++
			continue
		}
		if marker == jpegEnd || marker < 0xC0 || marker >= 0xD0 && marker <= jpegStart {
			return nil, 0, 0, false // these have no length, and none belongs before the picture
		}
		size := int(binary.BigEndian.Uint16(file[at+2:]))
		end := at + 2 + size
		if size < 2 || end > len(file) {
			return nil, 0, 0, false
		}
		if marker == jpegScan {
			return append(clean, file[at:]...), width, height, width > 0 && height > 0
		}
		body := file[at+4 : end]
		if isFrame(marker) && len(body) >= 5 {
			height, width = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
		}
		if !beside(marker, body) {
			clean = append(clean, file[at:end]...)
		}
		at = end
	}
	return nil, 0, 0, false
}

// isFrame reports whether a marker begins the frame, which has the size: all of
// C0 to CF but three.
func isFrame(marker byte) bool {
	return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC
}

// beside reports whether a segment says something that no decoder needs.
func beside(marker byte, body []byte) bool {
	switch {
	case marker == jpegAPP0 || marker == jpegAPP14:
		return false
	case marker == jpegAPP2:
		return !bytes.HasPrefix(body, []byte("ICC_PROFILE\x00"))
	}
	return marker == jpegComment || marker > jpegAPP0 && marker <= jpegAPP15
}
