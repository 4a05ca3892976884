//! The headless run as a process: its exit codes, and what it says where.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

/// The example, built once.
fn solve() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
        let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let words = [
            "build",
            "-q",
            "--locked",
            "-p",
            "latheside-core",
            "--example",
            "solve",
            "--message-format=json",
        ];
        let built = Command::new(cargo).args(words).current_dir(root).output().unwrap();
        let said = String::from_utf8(built.stdout).unwrap();
        let artefacts = said.lines().filter_map(|line| line.split_once("\"executable\":\""));
        let path = artefacts
            .filter_map(|(_, rest)| rest.split_once('"'))
            .map(|(path, _)| path)
            .next_back();
        path.expect("the example is built").into()
    })
}

fn run(words: &[&str], input: &[u8]) -> Output {
    let mut command = Command::new(solve());
    command.args(words).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    // A program that has refused reads no further.
    let _ = child.stdin.take().unwrap().write_all(input);
    child.wait_with_output().unwrap()
}

/// Exit code 2, nothing on standard output, one line on standard error: that line.
fn refused(words: &[&str], input: &[u8]) -> String {
    let output = run(words, input);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said.matches('\n').count(), 1, "{said}");
    said.trim_end().to_owned()
}

/// Exit code 0, nothing on standard error: the answers.
fn solved(words: &[&str], input: &[u8]) -> serde_json::Value {
    let output = run(words, input);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(output.stderr.is_empty());
    serde_json::from_slice(&output.stdout).unwrap()
}

fn file(name: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name).display().to_string()
}

/// The long example: an operation of each kind.
const LONG: &str = include_str!("links/format.json");

#[test]
fn a_file_or_standard_input_gives_the_same_answers() {
    let answers = solved(&[&file("files/links/format.json")], b"");
    assert_eq!(answers["format"], "latheside-answers");
    assert_eq!(answers["version"], 1);
    let asked: serde_json::Value = serde_json::from_str(LONG).unwrap();
    let asked = asked["operations"].as_array().unwrap();
    let answered = answers["answers"].as_array().unwrap();
    assert_eq!(answered.len(), asked.len());
    for (at, (asked, answer)) in asked.iter().zip(answered).enumerate() {
        assert_eq!(answer["operation"], at);
        assert_eq!(answer["kind"], asked["kind"]);
        assert!(answer["cautions"].is_array() && answer["why"].is_array());
        assert!(answer["steps"].is_array());
    }
    assert_eq!(solved(&["-"], LONG.as_bytes()), answers);
    assert_eq!(solved(&[], LONG.as_bytes()), answers);
}

#[test]
fn what_has_no_solution_is_an_answer() {
    let setup =
        br#"{"format": "latheside-setup", "version": 1, "operations": [{"kind": "thread"}]}"#;
    let answers = solved(&["-"], setup);
    assert!(answers["answers"][0]["refused"].is_string(), "{answers}");
    let none = solved(&["-"], br#"{"format": "latheside-setup", "version": 1}"#);
    assert_eq!(none["answers"], serde_json::json!([]));
}

#[test]
fn a_refused_file_says_one_line() {
    assert_eq!(refused(&["-"], b""), "the file is empty");
    assert_eq!(refused(&["-"], b"\xff\xfe{\x00}\x00"), "not a setup file: it is not text in UTF-8");
    assert_eq!(
        refused(&["-"], LONG.replace("\"22 mm\"", "\"22\"").as_bytes()),
        "operations[1].length: 22 of what? enter a length in mm, in or thou"
    );
    assert_eq!(
        refused(&["-"], LONG.replace("\"version\": 1", "\"version\": 2").as_bytes()),
        "version: this file is of version 2, newer than this Latheside (1): update, then open it"
    );
    // Two bytes a letter: cut off within one, it is still too large and not damaged.
    let large = format!("\"{}", "é".repeat(2_500_000));
    assert_eq!(refused(&["-"], large.as_bytes()), "the file is larger than 4 MB: no more is read");
    let missing = refused(&["no such file.json"], b"");
    assert!(missing.starts_with("no such file.json can't be read: "), "{missing}");
    let folder = refused(&[&file("files/links")], b"");
    assert!(folder.contains("can't be read: "), "{folder}");
    let names = refused(&["-"], b"{\"format\": \"latheside-setup\", \"version\": 1, \"a\\nb\": 1}");
    assert!(names.starts_with("a b: unknown key"), "{names}");
}
