"""Reads the edit lists of a recording with OpenTimelineIO, a library of general use, and checks that what is kept is as long as
the recording is after cutting, in one piece, without a gap.

usage: edit-list.py FOLDER  (as `cargo run -p rehearse --example recorded` writes it)
"""

import pathlib
import sys

import opentimelineio

folder = pathlib.Path(sys.argv[1])
for when, n_events in [("before", 1), ("after", 3)]:
    timeline = opentimelineio.adapters.read_from_file(str(folder / when / "cuts.edl"), rate=25)
    clips = [it for track in timeline.tracks for it in track.find_children(descended_from_type=opentimelineio.schema.Clip)]
    video = timeline.video_tracks()[0]
    assert len(list(video.find_clips())) == n_events, (when, clips)
    assert not [it for it in video if isinstance(it, opentimelineio.schema.Gap)], "a gap"
    kept = video.duration().to_seconds()
    seconds = float((folder / when / "seconds.txt").read_text())
    # Each of the ends is rounded to the nearest frame.
    assert abs(kept - seconds) <= n_events / 25, (when, kept, seconds)
    print(f"{when} cutting: {n_events} stretches, {kept} s in the edit list, {seconds} s in the recording")
