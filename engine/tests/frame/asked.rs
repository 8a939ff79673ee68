//! The question about a frame.

use engine::ask::ask;
use serde_json::{Value, json};

fn told(request: &Value) -> (Value, String) {
    let reply = ask("frame", request).unwrap();
    (reply["answer"].clone(), reply["problems"].to_string())
}

fn beam() -> Value {
    json!({"nodes": [{"at_m": [0, 0, 0], "fast": "x y z rx ry rz"}, {"at_m": [4, 0, 0], "force_n": [0, 0, -1000]}],
           "members": [{"from": 1, "to": 2, "young_pa": 1e10, "shear_pa": 6e8, "diameters_m": [0.16, 0.12]}]})
}

#[test]
fn a_notch_makes_a_beam_softer_and_stations_are_answered() {
    let (plain, _) = told(&beam());
    let mut notched = beam();
    notched["members"][0]["notches"] = json!([{"span_m": [0.5, 0.56], "diameters_m": [0.1, 0.1]}]);
    notched["members"][0]["stations_m"] = json!([0, 2]);
    let (answer, problems) = told(&notched);
    assert_eq!(problems, "[]");
    assert!(answer["node_2_uz_m"].as_f64().unwrap() < plain["node_2_uz_m"].as_f64().unwrap());
    assert!((answer["member_1_station_2_mz_n_m"].as_f64().unwrap() + 2000.0).abs() < 1e-6);
    assert!((answer["node_1_reaction_fz_n"].as_f64().unwrap() - 1000.0).abs() < 1e-6);
}

#[test]
fn a_link_carries_between_beams_that_pass_each_other() {
    let mut request = beam();
    request["nodes"][1] = json!({"at_m": [4, 0, 0.2], "force_n": [0, 0, -1000]});
    request["nodes"][0] = json!({"at_m": [0, 0, 0.2], "fast": "x y z rx ry rz"});
    let lower = [json!({"at_m": [4, -1, 0], "fast": "x y z rx ry rz"}), json!({"at_m": [4, 0, 0]})];
    request["nodes"].as_array_mut().unwrap().extend(lower);
    request["members"]
        .as_array_mut()
        .unwrap()
        .push(json!({"from": 3, "to": 4, "young_pa": 1e10, "shear_pa": 6e8, "diameters_m": [0.16, 0.16]}));
    request["links"] = json!([{"from": 4, "to": 2, "stiffness_n_m": [1e8, 0, 0], "beside": [1, 0, 0]}]);
    let (answer, problems) = told(&request);
    assert_eq!(problems, "[]");
    let push = -answer["link_1_fx_n"].as_f64().unwrap();
    assert!(push > 500.0 && push < 1000.0, "{push}");
    assert!((answer["node_3_reaction_fz_n"].as_f64().unwrap() - push).abs() < 1e-6);
}

#[test]
fn what_cannot_be_answered_is_told() {
    let problem = |change: &dyn Fn(&mut Value)| {
        let mut request = beam();
        change(&mut request);
        told(&request).1
    };
    assert!(problem(&|r| r["nodes"][0]["fast"] = json!("x y z")).contains("moves without resistance: node"));
    assert!(problem(&|r| r["nodes"][0]["fast"] = json!("x w")).contains("names \\\"w\\\""));
    assert!(problem(&|r| r["members"][0]["to"] = json!(3)).contains("not there"));
    assert!(problem(&|r| r["members"][0]["diameters_m"] = json!([0.1])).contains("2 plain numbers"));
    assert!(problem(&|r| r["members"][0]["diameters_m"] = json!([0.1, -0.1])).contains("above zero"));
    assert!(
        problem(&|r| r["members"][0]["notches"] = json!([{"span_m": [3, 5], "diameters_m": [0.1, 0.1]}]))
            .contains("between its ends")
    );
    assert!(problem(&|r| r["members"][0]["colour"] = json!("blue")).contains("not a key"));
    assert!(problem(&|r| r["buckling"] = json!(true)).contains("push on no member"));
    assert!(problem(&|r| r["members"][0]["stations_m"] = json!([9])).contains("lie between its ends"));
}
