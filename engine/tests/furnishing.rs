//! Who and what finds room within a wall: inside, apart from each other, clear of the doors.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

use builds::{BUILDS, PLAIN_RING, SPIRAL_WALL};
use engine::answers::{Answers, Inputs, answers};
use engine::house::{Figure, Furnishing, Placed};
use geo::{Contains, Coord, Intersects, LineString, Polygon};
use kurbo::Point;

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn polygon(points: &[Point]) -> Polygon {
    Polygon::new(LineString::new(points.iter().map(|point| Coord { x: point.x, y: point.y }).collect()), Vec::new())
}

/// The ring of the plain build with another radius.
fn ring(radius: &str) -> Furnishing {
    let text = PLAIN_RING.replace("\"2 m\", \"0 m\"", &format!("\"{radius}\", \"0 m\""));
    let text = text.replace("\"-2 m\", \"0 m\"", &format!("\"-{radius}\", \"0 m\""));
    let text = text.replace("\"0 m\", \"2 m\"", &format!("\"0 m\", \"{radius}\""));
    let text = text.replace("\"0 m\", \"-2 m\"", &format!("\"0 m\", \"-{radius}\""));
    answered(&text.replace("along = \"3 m\"", "along = \"1.5 m\"")).furnishing
}

fn figures(furnishing: &Furnishing) -> Vec<Figure> {
    furnishing.placed.iter().map(|placed| placed.figure).collect()
}

#[test]
fn what_finds_room_stands_within_the_wall_and_apart() {
    // Nobody is asked for room beside an open wall.
    for (name, text) in BUILDS.into_iter().filter(|(_, text)| *text != SPIRAL_WALL) {
        let answers = answered(text);
        let placed: &[Placed] = &answers.furnishing.placed;
        assert!(placed.len() >= 3, "{name}: {:?}", figures(&answers.furnishing));
        let room = polygon(&answers.pegs.line.points);
        let grounds: Vec<Polygon> = placed.iter().map(|one| polygon(&one.corners())).collect();
        for (place, ground) in grounds.iter().enumerate() {
            assert!(room.contains(ground), "{name}: {:?} is not inside", placed[place]);
            assert!(!grounds[..place].iter().any(|other| other.intersects(ground)), "{name}: {:?}", placed[place]);
        }
        assert!(room.contains(&polygon(&[answers.furnishing.free.unwrap(); 3]).exterior().0[0]), "{name}");
    }
}

#[test]
fn before_a_door_the_ground_stays_free_as_far_as_its_leaf_is_wide() {
    let answers = answered(PLAIN_RING);
    let door = answers.plan.places.iter().find(|place| place.path == "openings.door").unwrap().at;
    for placed in &answers.furnishing.placed {
        // The wall is 400 mm thick and the leaf 800 mm wide.
        let nearest = placed.corners().iter().map(|corner| corner.distance(door)).fold(f64::INFINITY, f64::min);
        assert!(nearest > 0.95, "{placed:?} is {nearest} m from the door");
    }
}

#[test]
fn in_a_ring_too_small_nobody_lies_and_in_a_wider_one_somebody_does() {
    assert!(!figures(&ring("1.1 m")).contains(&Figure::Lying));
    assert!(figures(&ring("2 m")).contains(&Figure::Lying));
    assert!(figures(&ring("2 m")).contains(&Figure::Bench));
}

#[test]
fn a_bench_stands_against_the_wall() {
    let found = ring("2 m");
    let bench = found.placed.iter().find(|placed| placed.figure == Figure::Bench).unwrap();
    let corners = bench.corners().map(|corner| corner.to_vec2().hypot());
    let farthest = corners.iter().copied().fold(0.0, f64::max);
    // The inner face is 1.8 m from the middle.
    assert!(farthest < 1.8 - 0.04 && farthest > 1.8 - 0.12, "its back corner is {farthest} m from the middle");
}

#[test]
fn nobody_is_placed_within_a_wall_that_ends() {
    assert_eq!(answered(SPIRAL_WALL).furnishing, Furnishing::default());
}
