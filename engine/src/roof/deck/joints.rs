//! Boards that run over the rafters of a one-way roof: every joint over a rafter, none beside a joint of the course below.

use crate::units::Length;

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

/// Lays `courses` of boards from one verge to the other over rafters at `places`, no board longer than `longest`. Each board
/// reaches the farthest rafter that does not bear a joint of the course below.
///
/// # Errors
/// Nothing reaches from this rafter to the next, or over this verge: the place of the rafter from which it fails, from 0.
pub fn staggered(
    places: &[Length],
    verges: [Length; 2],
    courses: u64,
    longest: Length,
) -> Result<Staggered, usize> {
    let mut all = Staggered { joints: Vec::new(), pieces: Vec::new(), in_line: 0 };
    for _ in 0..courses {
        let below = all.joints.last().cloned().unwrap_or_default();
        let (mut joints, mut pieces, mut at) = (Vec::new(), Vec::new(), verges[0]);
        while verges[1] - at > longest {
            let within = |rafter: &usize| places[*rafter] > at && places[*rafter] - at <= longest;
            let reached: Vec<usize> = (0..places.len()).filter(within).collect();
            let free = reached.iter().rev().find(|rafter| !below.contains(rafter));
            let joint = *free.or(reached.last()).ok_or(joints.last().copied().unwrap_or(0))?;
            all.in_line += u64::from(free.is_none());
            pieces.push(places[joint] - at);
            joints.push(joint);
            at = places[joint];
        }
        pieces.push(verges[1] - at);
        all.joints.push(joints);
        all.pieces.push(pieces);
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rafters(count: u32) -> Vec<Length> {
        (0..count).map(|one| Length::m(0.6 * f64::from(one))).collect()
    }

    #[test]
    fn joints_lie_over_rafters_and_never_beside_one_of_the_course_below() {
        let places = rafters(13);
        let verges = [Length::m(-0.3), Length::m(7.5)];
        let laid = staggered(&places, verges, 9, Length::m(3.0)).unwrap();
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
    fn where_one_rafter_alone_is_in_reach_the_joints_lie_in_line_and_are_counted() {
        let laid = staggered(&rafters(4), [Length::ZERO, Length::m(1.8)], 3, Length::m(0.7)).unwrap();
        assert_eq!(laid.joints, [[1, 2], [1, 2], [1, 2]]);
        assert_eq!(laid.in_line, 4);
    }

    #[test]
    fn a_board_that_does_not_reach_the_next_rafter_is_refused_with_its_place() {
        assert_eq!(staggered(&rafters(4), [Length::ZERO, Length::m(1.8)], 1, Length::m(0.5)), Err(0));
    }
}
