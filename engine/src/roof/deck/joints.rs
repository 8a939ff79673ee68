//! Boards that run over the rafters of a one-way roof: every joint over a rafter, none beside a joint of the course below.

use super::nesting::NEARLY;
use crate::units::Length;

/// A course of boards over rafters.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The first rafter under it, from 0.
    pub first: usize,
    /// Where its rafters lie, across the fall.
    pub places: Vec<Length>,
    /// Where it begins and ends.
    pub verges: [Length; 2],
}

/// The courses of a row of rafters.
#[derive(Clone, Debug, PartialEq)]
pub struct Staggered {
    /// Of each course, the rafters over which its boards meet, from 0.
    pub joints: Vec<Vec<usize>>,
    /// The length of each piece, course by course.
    pub pieces: Vec<Vec<Length>>,
    /// Joints that lie beside one of the course below since no other rafter was within reach.
    pub in_line: u64,
}

/// Lays courses of boards from one verge to the other over their rafters, no board longer than `longest`, each on two rafters at
/// least where its course has them. Every course has the fewest joints in line with the course below, then the fewest boards, then
/// the longest boards first.
///
/// # Errors
/// The place of the rafter from which no board reaches on, from 0.
pub fn staggered(courses: &[Row], longest: Length) -> Result<Staggered, usize> {
    let mut all = Staggered { joints: Vec::new(), pieces: Vec::new(), in_line: 0 };
    for row in courses {
        let below = all.joints.last().map_or(&[][..], Vec::as_slice);
        let joints = course(row, longest, below)?;
        all.in_line += joints.iter().filter(|joint| below.contains(joint)).count() as u64;
        let ends = joints.iter().map(|&joint| row.places[joint - row.first]).chain([row.verges[1]]);
        let mut at = row.verges[0];
        all.pieces.push(ends.map(|end| end - std::mem::replace(&mut at, end)).collect());
        all.joints.push(joints);
    }
    Ok(all)
}

/// The best way on from a joint: joints in line, boards, and the next joint, or none where the board reaches the verge.
type WayOn = Option<(u64, u64, Option<usize>)>;

fn course(row: &Row, longest: Length, below: &[usize]) -> Result<Vec<usize>, usize> {
    let Row { first, places, verges } = row;
    let inner = 1..places.len().saturating_sub(1);
    let mut from: Vec<WayOn> = vec![None; places.len()];
    let best = |at: Length, after: usize, from: &[WayOn]| -> WayOn {
        if verges[1] - at <= longest + NEARLY {
            return Some((0, 1, None));
        }
        let on = |joint: usize| {
            let (in_line, boards, _) = from[joint]?;
            (places[joint] - at <= longest + NEARLY)
                .then(|| (in_line + u64::from(below.contains(&(first + joint))), boards + 1, Some(joint)))
        };
        inner
            .clone()
            .filter(|&joint| joint > after)
            .rev()
            .filter_map(on)
            .min_by_key(|&(in_line, boards, _)| (in_line, boards))
    };
    for joint in inner.clone().rev() {
        from[joint] = best(places[joint], joint, &from);
    }
    let mut joints = Vec::new();
    let Some((.., mut next)) = best(verges[0], 0, &from) else {
        let stuck = |rafter: &usize| places[*rafter + 1] - places[*rafter] > longest;
        return Err(first + (0..places.len().saturating_sub(1)).find(stuck).unwrap_or(0));
    };
    while let Some(joint) = next {
        joints.push(first + joint);
        next = from[joint].and_then(|(.., next)| next);
    }
    Ok(joints)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn courses(rafters: u32, verges: [f64; 2], count: usize) -> Vec<Row> {
        let places = (0..rafters).map(|one| Length::m(0.6 * f64::from(one))).collect();
        vec![Row { first: 0, places, verges: verges.map(Length::m) }; count]
    }

    #[test]
    fn joints_lie_over_rafters_and_never_beside_one_of_the_course_below() {
        let laid = staggered(&courses(13, [-0.3, 7.5], 9), Length::m(3.0)).unwrap();
        assert_eq!(laid.in_line, 0);
        assert_eq!(laid.joints[0], [4, 9]);
        assert_eq!(laid.joints[1], [3, 8]);
        for pair in laid.joints.windows(2) {
            assert!(pair[0].iter().all(|joint| !pair[1].contains(joint)));
        }
        for pieces in &laid.pieces {
            let whole: Length = pieces.iter().copied().sum();
            assert!((whole - Length::m(7.8)).abs() < Length::mm(1e-6));
            assert!(pieces.iter().all(|&piece| piece <= Length::m(3.0)));
        }
    }

    #[test]
    fn a_length_that_is_whole_bays_reaches_as_many() {
        let laid = staggered(&courses(11, [0.0, 6.0], 1), Length::m(3.0)).unwrap();
        assert_eq!(laid.joints, [[5]]);
    }

    #[test]
    fn where_one_rafter_alone_is_in_reach_the_joints_lie_in_line_and_are_counted() {
        let laid = staggered(&courses(4, [0.0, 1.8], 3), Length::m(0.7)).unwrap();
        assert_eq!(laid.joints, [[1, 2], [1, 2], [1, 2]]);
        assert_eq!(laid.in_line, 4);
    }

    #[test]
    fn a_board_that_does_not_reach_the_next_rafter_is_refused_with_its_place() {
        assert_eq!(staggered(&courses(4, [0.0, 1.8], 1), Length::m(0.5)), Err(0));
    }
}
