//! `ask`: one question from JSON.

use std::io::Read;

use anyhow::{Context, Result, bail};
use serde_json::Value;

use crate::told::{Told, say};

/// Answers a question on standard output.
///
/// # Errors
/// There is no such question, or standard input is not JSON.
pub fn ask(name: Option<&str>, list: bool, example: bool) -> Result<Told> {
    if list {
        for question in engine::ask::questions() {
            say(&format!("{:<12} {}", question.name, question.about))?;
        }
        return Ok(Told::Answered);
    }
    let Some(name) = name else { bail!("say which question; `ask --list` shows all") };
    if example {
        let Some(question) = engine::ask::questions().iter().find(|question| question.name == name) else {
            bail!("there is no question \"{name}\"; `ask --list` shows all");
        };
        say(question.example)?;
        return Ok(Told::Answered);
    }
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text).context("standard input cannot be read")?;
    let request: Value =
        serde_json::from_str(&text).context("the request is not JSON; `ask NAME --example` shows one")?;
    let reply = engine::ask::ask(name, &request).map_err(anyhow::Error::msg)?;
    say(&serde_json::to_string_pretty(&reply)?)?;
    let replies = match &reply {
        Value::Array(replies) => replies.iter().collect(),
        reply => vec![reply],
    };
    let clean = replies.iter().all(|reply| reply["problems"].as_array().is_some_and(Vec::is_empty));
    Ok(if clean { Told::Answered } else { Told::Problems })
}
