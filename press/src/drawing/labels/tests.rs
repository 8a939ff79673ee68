//! Laws of the label placer, tried on seeded random layouts.

use super::*;

/// A small seeded source of numbers from 0 to 1 (xorshift).
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, least: f64, greatest: f64) -> f64 {
        least + self.next() * (greatest - least)
    }
}

const WORDS: [&str; 8] =
    ["door", "south window\n900 × 1200", "niche", "1,250", "bench, 400 mm wide", "bond beam ≤ 6 m", "2′ 7½″", "pole 7"];

fn layout(seed: u64) -> (Area, Vec<Obstacle>, Vec<Label>) {
    let mut draw = Draw(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1);
    let (width, height) = (draw.between(90.0, 180.0), draw.between(90.0, 240.0));
    let sheet = Area::about([width / 2.0, height / 2.0], width, height);
    let point = |draw: &mut Draw| [draw.between(0.0, width), draw.between(0.0, height)];
    let obstacles = (0..20)
        .map(|count| {
            let from = point(&mut draw);
            match count % 2 {
                0 => Obstacle::Segment(from, point(&mut draw), 1.0),
                _ => Obstacle::Area(Area::about(from, 12.0, 8.0), 5.0),
            }
        })
        .collect();
    let count = 5 + (draw.next() * 36.0) as usize;
    // Some layouts crowd all anchors into one corner.
    let crowd = if seed.is_multiple_of(4) { 0.3 } else { 1.0 };
    let labels = (0..count)
        .map(|_| {
            let [x, y] = point(&mut draw);
            let anchor = [x * crowd, y * crowd];
            let words = WORDS[(draw.next() * 8.0) as usize % 8];
            let mut label = Label::beside(anchor, 3.0, words);
            if draw.next() < 0.25 {
                label.turn = Turn::Upright;
                label.preferred = vec![anchor, [anchor[0] - 3.0, anchor[1]]];
                label.stays = draw.next() < 0.5;
            }
            label
        })
        .collect();
    (sheet, obstacles, labels)
}

fn taken(placement: &Placement) -> Vec<&Placed> {
    let marks = placement.key.iter().filter_map(|entry| entry.mark.as_ref());
    placement.places.iter().flatten().chain(marks).collect()
}

#[test]
fn in_two_hundred_layouts_no_label_overlaps_another_or_leaves_the_sheet() {
    let (mut all, mut in_key) = (0, 0);
    for seed in 1..=200 {
        let (sheet, obstacles, labels) = layout(seed);
        let placement = place(sheet, &obstacles, &labels);
        let taken = taken(&placement);
        for (index, placed) in taken.iter().enumerate() {
            assert!(sheet.contains(placed.area), "layout {seed}: {placed:?}");
            for other in &taken[index + 1..] {
                assert!(!placed.area.overlaps(other.area), "layout {seed}: {placed:?} on {other:?}");
            }
        }
        let placed = placement.places.iter().flatten().count();
        assert_eq!(placed + placement.key.len(), labels.len());
        all += labels.len();
        in_key += placement.key.len();
    }
    assert!(in_key * 100 < all, "{in_key} of {all} labels found no room");
}

#[test]
fn the_same_layout_always_gives_the_same_places() {
    let (sheet, obstacles, labels) = layout(28);
    assert_eq!(place(sheet, &obstacles, &labels), place(sheet, &obstacles, &labels));
}

#[test]
fn a_lone_label_takes_its_first_preferred_place() {
    let mut label = Label::beside([50.0, 50.0], 3.0, "1,250");
    label.preferred = vec![[50.0, 47.0], [50.0, 53.0]];
    let placement = place(Area::about([50.0, 50.0], 100.0, 100.0), &[], &[label]);
    let placed = placement.places[0].as_ref().unwrap();
    assert!((placed.area.centre()[1] - 47.0).abs() < 1e-9);
    assert_eq!(placed.leader, None);
}

#[test]
fn a_label_pushed_far_off_gets_a_leader_from_its_anchor() {
    let wall = Obstacle::Area(Area::about([50.0, 50.0], 40.0, 40.0), 50.0);
    let label = Label::beside([50.0, 50.0], 3.0, "oven");
    let placement = place(Area::about([50.0, 50.0], 100.0, 100.0), &[wall], &[label]);
    let placed = placement.places[0].as_ref().unwrap();
    assert_eq!(placed.leader.unwrap()[0], [50.0, 50.0]);
    assert!(placed.area.distance([50.0, 50.0]) > 15.0);
}

#[test]
fn what_finds_no_room_goes_to_the_numbered_key() {
    let sheet = Area::about([15.0, 15.0], 30.0, 30.0);
    let labels = vec![Label::beside([15.0, 15.0], 3.0, "a long name of a bench"); 12];
    let placement = place(sheet, &[], &labels);
    let numbers: Vec<usize> = placement.key.iter().map(|entry| entry.number).collect();
    assert!(!numbers.is_empty());
    assert_eq!(numbers, (1..=numbers.len()).collect::<Vec<_>>());
    for entry in &placement.key {
        assert!(placement.places[entry.label].is_none());
        if let Some(mark) = &entry.mark {
            assert_eq!(mark.text, entry.number.to_string());
        }
    }
}

#[test]
fn a_label_that_stays_has_its_place_though_others_have_more_neighbours_and_no_other_place() {
    let sheet = Area::about([50.0, 50.0], 100.0, 100.0);
    let of = |stays: bool| Label { preferred: vec![[50.0, 50.0]], stays, ..Label::beside([50.0, 50.0], 3.0, "level") };
    let crowd = (0..12).map(|count| Label::beside([44.0 + f64::from(count), 50.0], 3.0, "south window of the store"));
    let labels: Vec<Label> = crowd.chain([of(false), of(true), of(true)]).collect();
    let placement = place(sheet, &[], &labels);
    let is_there = |placed: &Placed| placed.area.distance([50.0, 50.0]) == 0.0;
    let there = placement.places.iter().map(|placed| placed.as_ref().is_some_and(is_there));
    assert_eq!(there.enumerate().filter(|(_, there)| *there).map(|(index, _)| index).collect::<Vec<_>>(), [13]);
    assert_eq!(placement.key.iter().map(|entry| entry.label).collect::<Vec<_>>(), [14]);
}
