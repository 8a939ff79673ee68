//! The question about the boards of a deck: courses, lengths, joints, what they are cut from and what holds them.

use serde_json::{Value, json};

use super::deck::{nested, stock};
use super::deck_frame::{are_few, frame};
use super::given::Given;
use super::{Question, Reply};
use crate::roof::deck::{self, Board, Frame};
use crate::units::{Force, Kind, Length, Pressure};

pub(super) const BOARDS: Question = Question {
    name: "deck-boards",
    about: "Courses of boards on a deck: length and mitres of each, stock to cut them from, fasteners",
    example: r#"{"joints": "each bay", "cover_m": 0.2, "kerf_m": 0, "stock": [{"length_m": 3}], "closed": false,
  "uplift_pa": 1000, "withdrawal_n": 100, "thickness_m": 0.025, "in_a_box": 50, "rafters": [
  {"foot_x_m": 0, "foot_y_m": 0, "foot_z_m": 0, "head_x_m": 0, "head_y_m": 4, "head_z_m": 3},
  {"foot_x_m": 1, "foot_y_m": 0, "foot_z_m": 0, "head_x_m": 1, "head_y_m": 4, "head_z_m": 3},
  {"foot_x_m": 2, "foot_y_m": 0, "foot_z_m": 0, "head_x_m": 2, "head_y_m": 4, "head_z_m": 3}]}"#,
    answer: boards,
};

fn boards(given: &mut Given<'_>, reply: &mut Reply) {
    let joints = given.text("joints");
    let cover = given.number::<Length>("cover_m", Kind::Length);
    let kerf = given.number::<Length>("kerf_m", Kind::Length);
    let verge = given.maybe("verge_m", Kind::Length).unwrap_or(Length::ZERO);
    let stock = stock(given);
    let held = held(given);
    let frame = frame(given);
    if cover.is_some_and(|cover| cover < Length::mm(20.0)) || kerf.is_some_and(|kerf| kerf < Length::ZERO) {
        given.problem("`cover_m` must be 0.02 or more, `kerf_m` not below zero".into());
    }
    let (Some(joints), Some(cover), Some(kerf), Some(frame), true) = (joints, cover, kerf, frame, given.is_fine())
    else {
        return;
    };
    if !are_few(given, &frame, cover, "boards") {
        return;
    }
    let pieces = match joints {
        "each bay" => each_bay(reply, &frame, cover),
        "staggered" if !frame.is_closed() => {
            let longest = stock.iter().copied().fold(Length::ZERO, Length::max);
            staggered(given, reply, &frame, [cover, verge, longest])
        }
        "staggered" => {
            given.problem("boards of a ring are cut to each bay; write \"each bay\"".into());
            return;
        }
        other => {
            given.problem(format!("`joints` is \"{other}\"; write \"each bay\" or \"staggered\""));
            return;
        }
    };
    let Some(bought) = nested(given, reply, &pieces, &stock, kerf) else { return };
    if joints == "each bay" {
        let covered = frame.bays().iter().map(|bay| deck::courses(bay, cover).covered).sum();
        reply.put("boards_wasted", deck::boards_wasted(covered, cover, bought));
    }
    fasteners(reply, &frame, cover, &held);
}

fn each_bay(reply: &mut Reply, frame: &Frame, cover: Length) -> Vec<Length> {
    let mut pieces = Vec::new();
    let mut bays: Vec<Value> = Vec::new();
    let board = |board: &Board| {
        let [from, to] = board.ends.map(|end| end.map(|end| end.in_rad()));
        json!({"length_m": board.length.in_m(), "from_end_rad": from, "to_end_rad": to, "twist_rad_m": board.twist_on_a_metre})
    };
    for bay in frame.bays() {
        let laid = deck::courses(&bay, cover);
        pieces.extend(laid.boards.iter().map(|board| board.length));
        bays.push(laid.boards.iter().map(board).collect());
    }
    reply.answer.insert("pieces_count".into(), json!(pieces.len()));
    reply.answer.insert("bays".into(), Value::Array(bays));
    pieces
}

fn staggered(
    given: &mut Given<'_>,
    reply: &mut Reply,
    frame: &Frame,
    [cover, verge, longest]: [Length; 3],
) -> Vec<Length> {
    let mut places = vec![Length::ZERO];
    for (number, board) in deck::edge_boards(frame).iter().enumerate() {
        places.push(places[number] + board.string);
    }
    let end = places.last().copied().unwrap_or(Length::ZERO);
    let courses = crate::solve::whole::rounded_up(deck::longest_way_up(frame).value / cover);
    let row = deck::Row { first: 0, places, verges: [-verge, end + verge] };
    match deck::staggered(&vec![row; courses as usize], longest) {
        Ok(laid) => {
            let pieces: Vec<Length> = laid.pieces.iter().flatten().copied().collect();
            reply.answer.insert("pieces_count".into(), json!(pieces.len()));
            reply.answer.insert("joints_in_line_count".into(), json!(laid.in_line));
            reply.answer.insert("joints".into(), json!(laid.joints));
            pieces
        }
        Err(rafter) => {
            given.problem(format!("no length of `stock` reaches from rafter {} to the next", rafter + 1));
            Vec::new()
        }
    }
}

/// What is known of wind, board and fastener.
struct Held {
    uplift: Option<Pressure>,
    withdrawal: Option<Force>,
    board: Option<(Pressure, Length, Length)>,
    in_a_box: Option<u64>,
}

fn held(given: &mut Given<'_>) -> Held {
    let uplift = given.maybe::<Pressure>("uplift_pa", Kind::Pressure);
    let withdrawal = given.maybe::<Force>("withdrawal_n", Kind::Force);
    let thickness = given.maybe::<Length>("thickness_m", Kind::Length);
    let shear = given.maybe::<Pressure>("shear_modulus_pa", Kind::Pressure);
    let rows = given.maybe::<Length>("between_rows_m", Kind::Length);
    let in_a_box = given.maybe::<f64>("in_a_box", Kind::Number).map(|count| count as u64);
    let fine = withdrawal.is_none_or(|force| force > Force::ZERO)
        && uplift.is_none_or(|pressure| pressure >= Pressure::ZERO)
        && [thickness, rows].iter().flatten().all(|&length| length > Length::ZERO)
        && shear.is_none_or(|modulus| modulus > Pressure::ZERO)
        && in_a_box != Some(0);
    if !fine {
        given.problem("what holds boards down must be above zero, and `uplift_pa` not below it".into());
    }
    let board = shear.zip(thickness).zip(rows).map(|((shear, thickness), rows)| (shear, thickness, rows));
    Held { uplift, withdrawal, board, in_a_box }
}

/// Both ends of every board laid bay by bay, each by its own twist.
fn fasteners(reply: &mut Reply, frame: &Frame, cover: Length, held: &Held) {
    let told = |reply: &mut Reply, said: &str| reply.answer.insert("fasteners".into(), json!(said));
    let (Some(uplift), Some(withdrawal)) = (held.uplift, held.withdrawal) else {
        told(reply, "not known: give `uplift_pa` and `withdrawal_n`, what one fastener holds against being pulled out");
        return;
    };
    if held.board.is_none() && deck::largest_twist_on_a_metre(frame).value > 1e-9 {
        told(
            reply,
            "not known: give `shear_modulus_pa`, `thickness_m` and `between_rows_m`, since the boards are twisted",
        );
        return;
    }
    let mut all = 0;
    let mut worst: Option<(Force, Length, f64)> = None;
    for bay in frame.bays() {
        for board in deck::courses(&bay, cover).boards {
            let moment =
                |(shear, thick, _)| deck::twisting_moment_n_m(shear, cover, thick, board.twist_on_a_metre).value;
            let moment = held.board.map_or(0.0, moment);
            let pull = pull(uplift, cover, board.length, moment, held);
            all += 2 * deck::fasteners_at_end(pull, withdrawal).value;
            if worst.is_none_or(|(most, ..)| pull > most) {
                worst = Some((pull, board.length, moment));
            }
        }
    }
    let Some((_, length, moment)) = worst else { return };
    let area = reply.put("largest_area_of_end", deck::area_of_board_end(cover, length));
    let pull = reply.put("largest_pull_on_row", deck::pull_on_row(uplift, area, moment, rows(held, cover)));
    reply.put("most_at_an_end", deck::fasteners_at_end(pull, withdrawal));
    reply.answer.insert("fasteners_count".into(), json!(all));
    if let Some(in_a_box) = held.in_a_box {
        reply.put("boxes", deck::fastener_boxes(all, in_a_box));
    }
}

fn rows(held: &Held, cover: Length) -> Length {
    held.board.map_or(cover, |(.., rows)| rows)
}

fn pull(uplift: Pressure, cover: Length, length: Length, moment: f64, held: &Held) -> Force {
    deck::pull_on_row(uplift, deck::area_of_board_end(cover, length).value, moment, rows(held, cover)).value
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::BOARDS;
    use crate::ask::ask;

    fn row(changes: &Value) -> Value {
        let mut row: Value = serde_json::from_str(BOARDS.example).unwrap();
        for (key, value) in changes.as_object().unwrap() {
            row[key] = value.clone();
        }
        ask("deck-boards", &row).unwrap()
    }

    #[test]
    fn without_what_a_fastener_holds_their_number_is_not_known() {
        let ring = |changes: &Value| {
            let mut ring = json!({"joints": "each bay", "cover_m": 0.1, "kerf_m": 0.003, "stock": [{"length_m": 4}], "count": 9,
                "plan_radius_m": 2.8, "eye_radius_m": 0.6, "diameter_m": 0.14, "eye_edge_radius_m": 0.8, "uplift_pa": 1000});
            for (key, value) in changes.as_object().unwrap() {
                ring[key] = value.clone();
            }
            ask("deck-boards", &ring).unwrap()["answer"].clone()
        };
        let said = |changes: &Value| ring(changes)["fasteners"].as_str().unwrap().to_owned();
        assert!(said(&json!({})).starts_with("not known: give `uplift_pa` and"));
        assert!(said(&json!({"withdrawal_n": 200})).starts_with("not known: give `shear_modulus_pa`"));
        let held = json!({"withdrawal_n": 200, "shear_modulus_pa": 5e8, "thickness_m": 0.025, "between_rows_m": 0.06});
        assert!(ring(&held)["fasteners_count"].as_u64().unwrap() >= 4 * ring(&held)["pieces_count"].as_u64().unwrap());
    }

    #[test]
    fn boards_of_a_row_may_run_over_several_rafters_with_staggered_joints() {
        let answer =
            row(&json!({"joints": "staggered", "stock": [{"length_m": 1.5}], "verge_m": 0.2}))["answer"].clone();
        assert_eq!((&answer["pieces_count"], &answer["joints_in_line_count"]), (&json!(50), &json!(24)));
        let answer = row(&json!({"joints": "staggered", "verge_m": 0.2}))["answer"].clone();
        assert_eq!((&answer["pieces_count"], &answer["joints_in_line_count"]), (&json!(25), &json!(0)));
    }

    #[test]
    fn wrong_boards_are_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"joints": "anywhere"}), "\"each bay\" or \"staggered\""),
            (json!({"stock": []}), "`stock` is a list"),
            (json!({"stock": [{"length_m": 0.5}]}), "a piece of 1.000 m is longer"),
            (json!({"joints": "staggered", "stock": [{"length_m": 0.5}]}), "reaches from rafter 1"),
            (json!({"cover_m": 0}), "`cover_m` must be"),
            (json!({"in_a_box": 0}), "must be above zero"),
        ] {
            let reply = row(&changes);
            let told = reply["problems"].as_array().unwrap();
            assert!(told.len() == 1 && told[0].as_str().unwrap().contains(said), "{changes}: {told:?}");
        }
    }
}
