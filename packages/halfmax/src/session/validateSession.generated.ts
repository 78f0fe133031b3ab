// @ts-nocheck
// Made from shared/session.schema.json by scripts/generate-tables.mjs; do not edit.
import type { SessionValidator } from './schemaError.js';
import { sessionSchema } from './sessionSchema.generated.js';

export const validateSession: SessionValidator = validate10;
const schema11 = sessionSchema;
const pattern0 = new RegExp("^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$", "u");
const pattern1 = new RegExp("^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$", "u");
const pattern2 = new RegExp("^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$", "u");
const func2 = (text) => Array.from(text).length;
const schema12 = {"type":"object","allOf":[{"$ref":"#/definitions/claimForm"}],"properties":{"value":{"type":"number","exclusiveMinimum":0},"tolerance":{"$ref":"#/definitions/tolerance"},"atLeast":{"type":"number","exclusiveMinimum":0},"atMost":{"type":"number","exclusiveMinimum":0}}};
const schema13 = {"description":"exactly one of value, atLeast and atMost","oneOf":[{"required":["value"]},{"required":["atLeast"]},{"required":["atMost"]}]};
const schema14 = {"description":"a number above 0, or [minus, plus] with both at least 0 and one above 0","anyOf":[{"type":"number","exclusiveMinimum":0},{"type":"array","minItems":2,"maxItems":2,"items":[{"type":"number","minimum":0},{"type":"number","minimum":0}],"contains":{"type":"number","exclusiveMinimum":0}}]};

function validate11(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
let vErrors = null;
let errors = 0;
const _errs3 = errors;
let valid2 = false;
let passing0 = null;
const _errs4 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value === undefined){
const err0 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/0/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema13.oneOf[0].required,parentSchema:schema13.oneOf[0],data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
}
var _valid0 = _errs4 === errors;
if(_valid0){
valid2 = true;
passing0 = 0;
}
const _errs5 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atLeast === undefined){
const err1 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/1/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema13.oneOf[1].required,parentSchema:schema13.oneOf[1],data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
}
var _valid0 = _errs5 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 1];
}
else {
if(_valid0){
valid2 = true;
passing0 = 1;
}
const _errs6 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atMost === undefined){
const err2 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/2/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema13.oneOf[2].required,parentSchema:schema13.oneOf[2],data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
}
var _valid0 = _errs6 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 2];
}
else {
if(_valid0){
valid2 = true;
passing0 = 2;
}
}
}
if(!valid2){
const err3 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf",keyword:"oneOf",params:{passingSchemas: passing0},message:"must match exactly one schema in oneOf",schema:schema13.oneOf,parentSchema:schema13,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
else {
errors = _errs3;
if(vErrors !== null){
if(_errs3){
vErrors.length = _errs3;
}
else {
vErrors = null;
}
}
}
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value !== undefined){
let data0 = data.value;
if((typeof data0 == "number") && (isFinite(data0))){
if(data0 <= 0 || isNaN(data0)){
const err4 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema12.properties.value,data:data0};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
}
else {
const err5 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema12.properties.value.type,parentSchema:schema12.properties.value,data:data0};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
}
if(data.tolerance !== undefined){
let data1 = data.tolerance;
const _errs11 = errors;
let valid5 = false;
const _errs12 = errors;
if((typeof data1 == "number") && (isFinite(data1))){
if(data1 <= 0 || isNaN(data1)){
const err6 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
else {
const err7 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[0].type,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
var _valid1 = _errs12 === errors;
valid5 = valid5 || _valid1;
if(!valid5){
const _errs14 = errors;
if(Array.isArray(data1)){
if(data1.length > 2){
const err8 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
if(data1.length < 2){
const err9 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
const len0 = data1.length;
if(len0 > 0){
let data2 = data1[0];
if((typeof data2 == "number") && (isFinite(data2))){
if(data2 < 0 || isNaN(data2)){
const err10 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
}
else {
const err11 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[0].type,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
}
if(len0 > 1){
let data3 = data1[1];
if((typeof data3 == "number") && (isFinite(data3))){
if(data3 < 0 || isNaN(data3)){
const err12 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
else {
const err13 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[1].type,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
const _errs20 = errors;
const len1 = data1.length;
for(let i0=0; i0<len1; i0++){
let data4 = data1[i0];
const _errs21 = errors;
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 <= 0 || isNaN(data4)){
const err14 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
else {
const err15 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].contains.type,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
var valid7 = _errs21 === errors;
if(valid7){
break;
}
}
if(!valid7){
const err16 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/contains",keyword:"contains",params:{minContains: 1},message:"must contain at least 1 valid item(s)",schema:schema14.anyOf[1].contains,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
else {
errors = _errs20;
if(vErrors !== null){
if(_errs20){
vErrors.length = _errs20;
}
else {
vErrors = null;
}
}
}
}
else {
const err17 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema14.anyOf[1].type,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
var _valid1 = _errs14 === errors;
valid5 = valid5 || _valid1;
}
if(!valid5){
const err18 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema14.anyOf,parentSchema:schema14,data:data1};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
else {
errors = _errs11;
if(vErrors !== null){
if(_errs11){
vErrors.length = _errs11;
}
else {
vErrors = null;
}
}
}
}
if(data.atLeast !== undefined){
let data5 = data.atLeast;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 <= 0 || isNaN(data5)){
const err19 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema12.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
}
else {
const err20 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema12.properties.atLeast.type,parentSchema:schema12.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
}
if(data.atMost !== undefined){
let data6 = data.atMost;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 <= 0 || isNaN(data6)){
const err21 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema12.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
}
else {
const err22 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema12.properties.atMost.type,parentSchema:schema12.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
}
}
else {
const err23 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema12.type,parentSchema:schema12,data};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
validate11.errors = vErrors;
return errors === 0;
}

const schema15 = {"type":"object","allOf":[{"$ref":"#/definitions/claimForm"}],"properties":{"value":{"description":"a fraction, 0 to 1","type":"number","minimum":0,"maximum":1},"tolerance":{"$ref":"#/definitions/tolerance"},"atLeast":{"description":"a fraction, 0 to 1","type":"number","minimum":0,"maximum":1},"atMost":{"description":"a fraction, 0 to 1","type":"number","minimum":0,"maximum":1}}};

function validate14(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
let vErrors = null;
let errors = 0;
const _errs3 = errors;
let valid2 = false;
let passing0 = null;
const _errs4 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value === undefined){
const err0 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/0/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema13.oneOf[0].required,parentSchema:schema13.oneOf[0],data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
}
var _valid0 = _errs4 === errors;
if(_valid0){
valid2 = true;
passing0 = 0;
}
const _errs5 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atLeast === undefined){
const err1 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/1/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema13.oneOf[1].required,parentSchema:schema13.oneOf[1],data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
}
var _valid0 = _errs5 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 1];
}
else {
if(_valid0){
valid2 = true;
passing0 = 1;
}
const _errs6 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atMost === undefined){
const err2 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/2/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema13.oneOf[2].required,parentSchema:schema13.oneOf[2],data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
}
var _valid0 = _errs6 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 2];
}
else {
if(_valid0){
valid2 = true;
passing0 = 2;
}
}
}
if(!valid2){
const err3 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf",keyword:"oneOf",params:{passingSchemas: passing0},message:"must match exactly one schema in oneOf",schema:schema13.oneOf,parentSchema:schema13,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
else {
errors = _errs3;
if(vErrors !== null){
if(_errs3){
vErrors.length = _errs3;
}
else {
vErrors = null;
}
}
}
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value !== undefined){
let data0 = data.value;
if((typeof data0 == "number") && (isFinite(data0))){
if(data0 > 1 || isNaN(data0)){
const err4 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema15.properties.value,data:data0};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
if(data0 < 0 || isNaN(data0)){
const err5 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema15.properties.value,data:data0};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
}
else {
const err6 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema15.properties.value.type,parentSchema:schema15.properties.value,data:data0};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
if(data.tolerance !== undefined){
let data1 = data.tolerance;
const _errs11 = errors;
let valid5 = false;
const _errs12 = errors;
if((typeof data1 == "number") && (isFinite(data1))){
if(data1 <= 0 || isNaN(data1)){
const err7 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
}
else {
const err8 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[0].type,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
var _valid1 = _errs12 === errors;
valid5 = valid5 || _valid1;
if(!valid5){
const _errs14 = errors;
if(Array.isArray(data1)){
if(data1.length > 2){
const err9 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
if(data1.length < 2){
const err10 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
const len0 = data1.length;
if(len0 > 0){
let data2 = data1[0];
if((typeof data2 == "number") && (isFinite(data2))){
if(data2 < 0 || isNaN(data2)){
const err11 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
}
else {
const err12 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[0].type,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
if(len0 > 1){
let data3 = data1[1];
if((typeof data3 == "number") && (isFinite(data3))){
if(data3 < 0 || isNaN(data3)){
const err13 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
else {
const err14 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[1].type,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
const _errs20 = errors;
const len1 = data1.length;
for(let i0=0; i0<len1; i0++){
let data4 = data1[i0];
const _errs21 = errors;
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 <= 0 || isNaN(data4)){
const err15 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
}
else {
const err16 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].contains.type,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
var valid7 = _errs21 === errors;
if(valid7){
break;
}
}
if(!valid7){
const err17 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/contains",keyword:"contains",params:{minContains: 1},message:"must contain at least 1 valid item(s)",schema:schema14.anyOf[1].contains,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
else {
errors = _errs20;
if(vErrors !== null){
if(_errs20){
vErrors.length = _errs20;
}
else {
vErrors = null;
}
}
}
}
else {
const err18 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema14.anyOf[1].type,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
var _valid1 = _errs14 === errors;
valid5 = valid5 || _valid1;
}
if(!valid5){
const err19 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema14.anyOf,parentSchema:schema14,data:data1};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
else {
errors = _errs11;
if(vErrors !== null){
if(_errs11){
vErrors.length = _errs11;
}
else {
vErrors = null;
}
}
}
}
if(data.atLeast !== undefined){
let data5 = data.atLeast;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 > 1 || isNaN(data5)){
const err20 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema15.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
if(data5 < 0 || isNaN(data5)){
const err21 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema15.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
}
else {
const err22 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema15.properties.atLeast.type,parentSchema:schema15.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
}
if(data.atMost !== undefined){
let data6 = data.atMost;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 > 1 || isNaN(data6)){
const err23 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema15.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
if(data6 < 0 || isNaN(data6)){
const err24 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema15.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err24];
}
else {
vErrors.push(err24);
}
errors++;
}
}
else {
const err25 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema15.properties.atMost.type,parentSchema:schema15.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err25];
}
else {
vErrors.push(err25);
}
errors++;
}
}
}
else {
const err26 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema15.type,parentSchema:schema15,data};
if(vErrors === null){
vErrors = [err26];
}
else {
vErrors.push(err26);
}
errors++;
}
validate14.errors = vErrors;
return errors === 0;
}

const schema18 = {"type":"object","allOf":[{"$ref":"#/definitions/claimForm"}],"required":["fromNm","toNm"],"properties":{"value":{"type":"number","minimum":0},"tolerance":{"$ref":"#/definitions/tolerance"},"atLeast":{"type":"number","minimum":0},"atMost":{"type":"number","minimum":0},"fromNm":{"type":"number","exclusiveMinimum":0},"toNm":{"description":"above fromNm","type":"number","exclusiveMinimum":0}}};

function validate17(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
let vErrors = null;
let errors = 0;
const _errs3 = errors;
let valid2 = false;
let passing0 = null;
const _errs4 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value === undefined){
const err0 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/0/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema13.oneOf[0].required,parentSchema:schema13.oneOf[0],data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
}
var _valid0 = _errs4 === errors;
if(_valid0){
valid2 = true;
passing0 = 0;
}
const _errs5 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atLeast === undefined){
const err1 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/1/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema13.oneOf[1].required,parentSchema:schema13.oneOf[1],data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
}
var _valid0 = _errs5 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 1];
}
else {
if(_valid0){
valid2 = true;
passing0 = 1;
}
const _errs6 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atMost === undefined){
const err2 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/2/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema13.oneOf[2].required,parentSchema:schema13.oneOf[2],data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
}
var _valid0 = _errs6 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 2];
}
else {
if(_valid0){
valid2 = true;
passing0 = 2;
}
}
}
if(!valid2){
const err3 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf",keyword:"oneOf",params:{passingSchemas: passing0},message:"must match exactly one schema in oneOf",schema:schema13.oneOf,parentSchema:schema13,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
else {
errors = _errs3;
if(vErrors !== null){
if(_errs3){
vErrors.length = _errs3;
}
else {
vErrors = null;
}
}
}
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.fromNm === undefined){
const err4 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "fromNm"},message:"must have required property '"+"fromNm"+"'",schema:schema18.required,parentSchema:schema18,data};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
if(data.toNm === undefined){
const err5 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "toNm"},message:"must have required property '"+"toNm"+"'",schema:schema18.required,parentSchema:schema18,data};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
if(data.value !== undefined){
let data0 = data.value;
if((typeof data0 == "number") && (isFinite(data0))){
if(data0 < 0 || isNaN(data0)){
const err6 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema18.properties.value,data:data0};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
else {
const err7 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.value.type,parentSchema:schema18.properties.value,data:data0};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
}
if(data.tolerance !== undefined){
let data1 = data.tolerance;
const _errs11 = errors;
let valid5 = false;
const _errs12 = errors;
if((typeof data1 == "number") && (isFinite(data1))){
if(data1 <= 0 || isNaN(data1)){
const err8 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
}
else {
const err9 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[0].type,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
var _valid1 = _errs12 === errors;
valid5 = valid5 || _valid1;
if(!valid5){
const _errs14 = errors;
if(Array.isArray(data1)){
if(data1.length > 2){
const err10 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
if(data1.length < 2){
const err11 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
const len0 = data1.length;
if(len0 > 0){
let data2 = data1[0];
if((typeof data2 == "number") && (isFinite(data2))){
if(data2 < 0 || isNaN(data2)){
const err12 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
else {
const err13 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[0].type,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
if(len0 > 1){
let data3 = data1[1];
if((typeof data3 == "number") && (isFinite(data3))){
if(data3 < 0 || isNaN(data3)){
const err14 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
else {
const err15 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[1].type,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
}
const _errs20 = errors;
const len1 = data1.length;
for(let i0=0; i0<len1; i0++){
let data4 = data1[i0];
const _errs21 = errors;
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 <= 0 || isNaN(data4)){
const err16 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
}
else {
const err17 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].contains.type,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
var valid7 = _errs21 === errors;
if(valid7){
break;
}
}
if(!valid7){
const err18 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/contains",keyword:"contains",params:{minContains: 1},message:"must contain at least 1 valid item(s)",schema:schema14.anyOf[1].contains,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
else {
errors = _errs20;
if(vErrors !== null){
if(_errs20){
vErrors.length = _errs20;
}
else {
vErrors = null;
}
}
}
}
else {
const err19 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema14.anyOf[1].type,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
var _valid1 = _errs14 === errors;
valid5 = valid5 || _valid1;
}
if(!valid5){
const err20 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema14.anyOf,parentSchema:schema14,data:data1};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
else {
errors = _errs11;
if(vErrors !== null){
if(_errs11){
vErrors.length = _errs11;
}
else {
vErrors = null;
}
}
}
}
if(data.atLeast !== undefined){
let data5 = data.atLeast;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 < 0 || isNaN(data5)){
const err21 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema18.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
}
else {
const err22 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.atLeast.type,parentSchema:schema18.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
}
if(data.atMost !== undefined){
let data6 = data.atMost;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 < 0 || isNaN(data6)){
const err23 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema18.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
}
else {
const err24 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.atMost.type,parentSchema:schema18.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err24];
}
else {
vErrors.push(err24);
}
errors++;
}
}
if(data.fromNm !== undefined){
let data7 = data.fromNm;
if((typeof data7 == "number") && (isFinite(data7))){
if(data7 <= 0 || isNaN(data7)){
const err25 = {instancePath:instancePath+"/fromNm",schemaPath:"#/properties/fromNm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema18.properties.fromNm,data:data7};
if(vErrors === null){
vErrors = [err25];
}
else {
vErrors.push(err25);
}
errors++;
}
}
else {
const err26 = {instancePath:instancePath+"/fromNm",schemaPath:"#/properties/fromNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.fromNm.type,parentSchema:schema18.properties.fromNm,data:data7};
if(vErrors === null){
vErrors = [err26];
}
else {
vErrors.push(err26);
}
errors++;
}
}
if(data.toNm !== undefined){
let data8 = data.toNm;
if((typeof data8 == "number") && (isFinite(data8))){
if(data8 <= 0 || isNaN(data8)){
const err27 = {instancePath:instancePath+"/toNm",schemaPath:"#/properties/toNm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema18.properties.toNm,data:data8};
if(vErrors === null){
vErrors = [err27];
}
else {
vErrors.push(err27);
}
errors++;
}
}
else {
const err28 = {instancePath:instancePath+"/toNm",schemaPath:"#/properties/toNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.toNm.type,parentSchema:schema18.properties.toNm,data:data8};
if(vErrors === null){
vErrors = [err28];
}
else {
vErrors.push(err28);
}
errors++;
}
}
}
else {
const err29 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema18.type,parentSchema:schema18,data};
if(vErrors === null){
vErrors = [err29];
}
else {
vErrors.push(err29);
}
errors++;
}
validate17.errors = vErrors;
return errors === 0;
}


function validate10(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
/*# sourceURL="halfmax-session/1" */;
let vErrors = null;
let errors = 0;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.format === undefined){
const err0 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "format"},message:"must have required property '"+"format"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
if(data.detector === undefined){
const err1 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "detector"},message:"must have required property '"+"detector"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
if(data.frames === undefined){
const err2 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "frames"},message:"must have required property '"+"frames"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
if(data.filters === undefined){
const err3 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "filters"},message:"must have required property '"+"filters"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
if(data.format !== undefined){
let data0 = data.format;
if("halfmax-session/1" !== data0){
const err4 = {instancePath:instancePath+"/format",schemaPath:"#/properties/format/const",keyword:"const",params:{allowedValue: "halfmax-session/1"},message:"must be equal to constant",schema:"halfmax-session/1",parentSchema:schema11.properties.format,data:data0};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
}
if(data.title !== undefined){
let data1 = data.title;
if(typeof data1 !== "string"){
const err5 = {instancePath:instancePath+"/title",schemaPath:"#/properties/title/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.title.type,parentSchema:schema11.properties.title,data:data1};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
}
if(data.recorded !== undefined){
let data2 = data.recorded;
if(typeof data2 === "string"){
if(!pattern0.test(data2)){
const err6 = {instancePath:instancePath+"/recorded",schemaPath:"#/properties/recorded/pattern",keyword:"pattern",params:{pattern: "^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$"},message:"must match pattern \""+"^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$"+"\"",schema:"^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$",parentSchema:schema11.properties.recorded,data:data2};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
else {
const err7 = {instancePath:instancePath+"/recorded",schemaPath:"#/properties/recorded/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.recorded.type,parentSchema:schema11.properties.recorded,data:data2};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
}
if(data.detector !== undefined){
let data3 = data.detector;
if(data3 && typeof data3 == "object" && !Array.isArray(data3)){
if(data3.pixels === undefined){
const err8 = {instancePath:instancePath+"/detector",schemaPath:"#/properties/detector/required",keyword:"required",params:{missingProperty: "pixels"},message:"must have required property '"+"pixels"+"'",schema:schema11.properties.detector.required,parentSchema:schema11.properties.detector,data:data3};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
if(data3.saturationCounts === undefined){
const err9 = {instancePath:instancePath+"/detector",schemaPath:"#/properties/detector/required",keyword:"required",params:{missingProperty: "saturationCounts"},message:"must have required property '"+"saturationCounts"+"'",schema:schema11.properties.detector.required,parentSchema:schema11.properties.detector,data:data3};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
if(data3.pixels !== undefined){
let data4 = data3.pixels;
if(!(((typeof data4 == "number") && (!(data4 % 1) && !isNaN(data4))) && (isFinite(data4)))){
const err10 = {instancePath:instancePath+"/detector/pixels",schemaPath:"#/properties/detector/properties/pixels/type",keyword:"type",params:{type: "integer"},message:"must be integer",schema:schema11.properties.detector.properties.pixels.type,parentSchema:schema11.properties.detector.properties.pixels,data:data4};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 > 100000 || isNaN(data4)){
const err11 = {instancePath:instancePath+"/detector/pixels",schemaPath:"#/properties/detector/properties/pixels/maximum",keyword:"maximum",params:{comparison: "<=", limit: 100000},message:"must be <= 100000",schema:100000,parentSchema:schema11.properties.detector.properties.pixels,data:data4};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
if(data4 < 16 || isNaN(data4)){
const err12 = {instancePath:instancePath+"/detector/pixels",schemaPath:"#/properties/detector/properties/pixels/minimum",keyword:"minimum",params:{comparison: ">=", limit: 16},message:"must be >= 16",schema:16,parentSchema:schema11.properties.detector.properties.pixels,data:data4};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
}
if(data3.saturationCounts !== undefined){
let data5 = data3.saturationCounts;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 <= 0 || isNaN(data5)){
const err13 = {instancePath:instancePath+"/detector/saturationCounts",schemaPath:"#/properties/detector/properties/saturationCounts/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.detector.properties.saturationCounts,data:data5};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
else {
const err14 = {instancePath:instancePath+"/detector/saturationCounts",schemaPath:"#/properties/detector/properties/saturationCounts/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.saturationCounts.type,parentSchema:schema11.properties.detector.properties.saturationCounts,data:data5};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
if(data3.wavelengthStartNm !== undefined){
let data6 = data3.wavelengthStartNm;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 > 5000 || isNaN(data6)){
const err15 = {instancePath:instancePath+"/detector/wavelengthStartNm",schemaPath:"#/properties/detector/properties/wavelengthStartNm/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5000},message:"must be <= 5000",schema:5000,parentSchema:schema11.properties.detector.properties.wavelengthStartNm,data:data6};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
if(data6 < 100 || isNaN(data6)){
const err16 = {instancePath:instancePath+"/detector/wavelengthStartNm",schemaPath:"#/properties/detector/properties/wavelengthStartNm/minimum",keyword:"minimum",params:{comparison: ">=", limit: 100},message:"must be >= 100",schema:100,parentSchema:schema11.properties.detector.properties.wavelengthStartNm,data:data6};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
}
else {
const err17 = {instancePath:instancePath+"/detector/wavelengthStartNm",schemaPath:"#/properties/detector/properties/wavelengthStartNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.wavelengthStartNm.type,parentSchema:schema11.properties.detector.properties.wavelengthStartNm,data:data6};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
}
if(data3.wavelengthEndNm !== undefined){
let data7 = data3.wavelengthEndNm;
if((typeof data7 == "number") && (isFinite(data7))){
if(data7 > 5000 || isNaN(data7)){
const err18 = {instancePath:instancePath+"/detector/wavelengthEndNm",schemaPath:"#/properties/detector/properties/wavelengthEndNm/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5000},message:"must be <= 5000",schema:5000,parentSchema:schema11.properties.detector.properties.wavelengthEndNm,data:data7};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
if(data7 < 100 || isNaN(data7)){
const err19 = {instancePath:instancePath+"/detector/wavelengthEndNm",schemaPath:"#/properties/detector/properties/wavelengthEndNm/minimum",keyword:"minimum",params:{comparison: ">=", limit: 100},message:"must be >= 100",schema:100,parentSchema:schema11.properties.detector.properties.wavelengthEndNm,data:data7};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
}
else {
const err20 = {instancePath:instancePath+"/detector/wavelengthEndNm",schemaPath:"#/properties/detector/properties/wavelengthEndNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.wavelengthEndNm.type,parentSchema:schema11.properties.detector.properties.wavelengthEndNm,data:data7};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
}
if(data3.linearity !== undefined){
let data8 = data3.linearity;
if(Array.isArray(data8)){
if(data8.length > 16){
const err21 = {instancePath:instancePath+"/detector/linearity",schemaPath:"#/properties/detector/properties/linearity/maxItems",keyword:"maxItems",params:{limit: 16},message:"must NOT have more than 16 items",schema:16,parentSchema:schema11.properties.detector.properties.linearity,data:data8};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
if(data8.length < 1){
const err22 = {instancePath:instancePath+"/detector/linearity",schemaPath:"#/properties/detector/properties/linearity/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.detector.properties.linearity,data:data8};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
const len0 = data8.length;
for(let i0=0; i0<len0; i0++){
let data9 = data8[i0];
if(!((typeof data9 == "number") && (isFinite(data9)))){
const err23 = {instancePath:instancePath+"/detector/linearity/" + i0,schemaPath:"#/properties/detector/properties/linearity/items/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.linearity.items.type,parentSchema:schema11.properties.detector.properties.linearity.items,data:data9};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
}
}
else {
const err24 = {instancePath:instancePath+"/detector/linearity",schemaPath:"#/properties/detector/properties/linearity/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.detector.properties.linearity.type,parentSchema:schema11.properties.detector.properties.linearity,data:data8};
if(vErrors === null){
vErrors = [err24];
}
else {
vErrors.push(err24);
}
errors++;
}
}
}
else {
const err25 = {instancePath:instancePath+"/detector",schemaPath:"#/properties/detector/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.detector.type,parentSchema:schema11.properties.detector,data:data3};
if(vErrors === null){
vErrors = [err25];
}
else {
vErrors.push(err25);
}
errors++;
}
}
if(data.frames !== undefined){
let data10 = data.frames;
if(Array.isArray(data10)){
if(data10.length < 1){
const err26 = {instancePath:instancePath+"/frames",schemaPath:"#/properties/frames/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.frames,data:data10};
if(vErrors === null){
vErrors = [err26];
}
else {
vErrors.push(err26);
}
errors++;
}
const len1 = data10.length;
for(let i1=0; i1<len1; i1++){
let data11 = data10[i1];
const _errs25 = errors;
let valid7 = true;
const _errs26 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
let missing0;
if((data11.role === undefined) && (missing0 = "role")){
const err27 = {};
if(vErrors === null){
vErrors = [err27];
}
else {
vErrors.push(err27);
}
errors++;
}
else {
if(data11.role !== undefined){
if("lamp" !== data11.role){
const err28 = {};
if(vErrors === null){
vErrors = [err28];
}
else {
vErrors.push(err28);
}
errors++;
}
}
}
}
var _valid0 = _errs26 === errors;
errors = _errs25;
if(vErrors !== null){
if(_errs25){
vErrors.length = _errs25;
}
else {
vErrors = null;
}
}
if(_valid0){
const _errs28 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
if(data11.lamp === undefined){
const err29 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/0/then/required",keyword:"required",params:{missingProperty: "lamp"},message:"must have required property '"+"lamp"+"'",schema:schema11.properties.frames.items.allOf[0].then.required,parentSchema:schema11.properties.frames.items.allOf[0].then,data:data11};
if(vErrors === null){
vErrors = [err29];
}
else {
vErrors.push(err29);
}
errors++;
}
}
var _valid0 = _errs28 === errors;
valid7 = _valid0;
}
if(!valid7){
const err30 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/0/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema11.properties.frames.items.allOf[0].if,parentSchema:schema11.properties.frames.items.allOf[0],data:data11};
if(vErrors === null){
vErrors = [err30];
}
else {
vErrors.push(err30);
}
errors++;
}
const _errs30 = errors;
let valid9 = true;
const _errs31 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
let missing1;
if((data11.role === undefined) && (missing1 = "role")){
const err31 = {};
if(vErrors === null){
vErrors = [err31];
}
else {
vErrors.push(err31);
}
errors++;
}
else {
if(data11.role !== undefined){
if("filtered" !== data11.role){
const err32 = {};
if(vErrors === null){
vErrors = [err32];
}
else {
vErrors.push(err32);
}
errors++;
}
}
}
}
var _valid1 = _errs31 === errors;
errors = _errs30;
if(vErrors !== null){
if(_errs30){
vErrors.length = _errs30;
}
else {
vErrors = null;
}
}
if(_valid1){
const _errs33 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
if(data11.filter === undefined){
const err33 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/1/then/required",keyword:"required",params:{missingProperty: "filter"},message:"must have required property '"+"filter"+"'",schema:schema11.properties.frames.items.allOf[1].then.required,parentSchema:schema11.properties.frames.items.allOf[1].then,data:data11};
if(vErrors === null){
vErrors = [err33];
}
else {
vErrors.push(err33);
}
errors++;
}
}
var _valid1 = _errs33 === errors;
valid9 = _valid1;
}
if(!valid9){
const err34 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/1/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema11.properties.frames.items.allOf[1].if,parentSchema:schema11.properties.frames.items.allOf[1],data:data11};
if(vErrors === null){
vErrors = [err34];
}
else {
vErrors.push(err34);
}
errors++;
}
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
if(data11.role === undefined){
const err35 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/required",keyword:"required",params:{missingProperty: "role"},message:"must have required property '"+"role"+"'",schema:schema11.properties.frames.items.required,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err35];
}
else {
vErrors.push(err35);
}
errors++;
}
if(data11.exposureMs === undefined){
const err36 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/required",keyword:"required",params:{missingProperty: "exposureMs"},message:"must have required property '"+"exposureMs"+"'",schema:schema11.properties.frames.items.required,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err36];
}
else {
vErrors.push(err36);
}
errors++;
}
if(data11.files === undefined){
const err37 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/required",keyword:"required",params:{missingProperty: "files"},message:"must have required property '"+"files"+"'",schema:schema11.properties.frames.items.required,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err37];
}
else {
vErrors.push(err37);
}
errors++;
}
if(data11.role !== undefined){
let data14 = data11.role;
if(!((((data14 === "dark") || (data14 === "lamp")) || (data14 === "open")) || (data14 === "filtered"))){
const err38 = {instancePath:instancePath+"/frames/" + i1+"/role",schemaPath:"#/properties/frames/items/properties/role/enum",keyword:"enum",params:{allowedValues: schema11.properties.frames.items.properties.role.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.frames.items.properties.role.enum,parentSchema:schema11.properties.frames.items.properties.role,data:data14};
if(vErrors === null){
vErrors = [err38];
}
else {
vErrors.push(err38);
}
errors++;
}
}
if(data11.exposureMs !== undefined){
let data15 = data11.exposureMs;
if((typeof data15 == "number") && (isFinite(data15))){
if(data15 <= 0 || isNaN(data15)){
const err39 = {instancePath:instancePath+"/frames/" + i1+"/exposureMs",schemaPath:"#/properties/frames/items/properties/exposureMs/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.frames.items.properties.exposureMs,data:data15};
if(vErrors === null){
vErrors = [err39];
}
else {
vErrors.push(err39);
}
errors++;
}
}
else {
const err40 = {instancePath:instancePath+"/frames/" + i1+"/exposureMs",schemaPath:"#/properties/frames/items/properties/exposureMs/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.frames.items.properties.exposureMs.type,parentSchema:schema11.properties.frames.items.properties.exposureMs,data:data15};
if(vErrors === null){
vErrors = [err40];
}
else {
vErrors.push(err40);
}
errors++;
}
}
if(data11.files !== undefined){
let data16 = data11.files;
if(Array.isArray(data16)){
if(data16.length < 1){
const err41 = {instancePath:instancePath+"/frames/" + i1+"/files",schemaPath:"#/properties/frames/items/properties/files/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.frames.items.properties.files,data:data16};
if(vErrors === null){
vErrors = [err41];
}
else {
vErrors.push(err41);
}
errors++;
}
const len2 = data16.length;
for(let i2=0; i2<len2; i2++){
let data17 = data16[i2];
if(typeof data17 === "string"){
if(func2(data17) < 1){
const err42 = {instancePath:instancePath+"/frames/" + i1+"/files/" + i2,schemaPath:"#/properties/frames/items/properties/files/items/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.frames.items.properties.files.items,data:data17};
if(vErrors === null){
vErrors = [err42];
}
else {
vErrors.push(err42);
}
errors++;
}
}
else {
const err43 = {instancePath:instancePath+"/frames/" + i1+"/files/" + i2,schemaPath:"#/properties/frames/items/properties/files/items/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.files.items.type,parentSchema:schema11.properties.frames.items.properties.files.items,data:data17};
if(vErrors === null){
vErrors = [err43];
}
else {
vErrors.push(err43);
}
errors++;
}
}
}
else {
const err44 = {instancePath:instancePath+"/frames/" + i1+"/files",schemaPath:"#/properties/frames/items/properties/files/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.frames.items.properties.files.type,parentSchema:schema11.properties.frames.items.properties.files,data:data16};
if(vErrors === null){
vErrors = [err44];
}
else {
vErrors.push(err44);
}
errors++;
}
}
if(data11.lamp !== undefined){
let data18 = data11.lamp;
if(typeof data18 === "string"){
if(func2(data18) < 1){
const err45 = {instancePath:instancePath+"/frames/" + i1+"/lamp",schemaPath:"#/properties/frames/items/properties/lamp/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.frames.items.properties.lamp,data:data18};
if(vErrors === null){
vErrors = [err45];
}
else {
vErrors.push(err45);
}
errors++;
}
}
else {
const err46 = {instancePath:instancePath+"/frames/" + i1+"/lamp",schemaPath:"#/properties/frames/items/properties/lamp/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.lamp.type,parentSchema:schema11.properties.frames.items.properties.lamp,data:data18};
if(vErrors === null){
vErrors = [err46];
}
else {
vErrors.push(err46);
}
errors++;
}
}
if(data11.filter !== undefined){
let data19 = data11.filter;
if(typeof data19 === "string"){
if(func2(data19) < 1){
const err47 = {instancePath:instancePath+"/frames/" + i1+"/filter",schemaPath:"#/properties/frames/items/properties/filter/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.frames.items.properties.filter,data:data19};
if(vErrors === null){
vErrors = [err47];
}
else {
vErrors.push(err47);
}
errors++;
}
}
else {
const err48 = {instancePath:instancePath+"/frames/" + i1+"/filter",schemaPath:"#/properties/frames/items/properties/filter/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.filter.type,parentSchema:schema11.properties.frames.items.properties.filter,data:data19};
if(vErrors === null){
vErrors = [err48];
}
else {
vErrors.push(err48);
}
errors++;
}
}
if(data11.takenAt !== undefined){
let data20 = data11.takenAt;
if(typeof data20 === "string"){
if(!pattern1.test(data20)){
const err49 = {instancePath:instancePath+"/frames/" + i1+"/takenAt",schemaPath:"#/properties/frames/items/properties/takenAt/pattern",keyword:"pattern",params:{pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$"},message:"must match pattern \""+"^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$"+"\"",schema:"^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$",parentSchema:schema11.properties.frames.items.properties.takenAt,data:data20};
if(vErrors === null){
vErrors = [err49];
}
else {
vErrors.push(err49);
}
errors++;
}
}
else {
const err50 = {instancePath:instancePath+"/frames/" + i1+"/takenAt",schemaPath:"#/properties/frames/items/properties/takenAt/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.takenAt.type,parentSchema:schema11.properties.frames.items.properties.takenAt,data:data20};
if(vErrors === null){
vErrors = [err50];
}
else {
vErrors.push(err50);
}
errors++;
}
}
}
else {
const err51 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.frames.items.type,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err51];
}
else {
vErrors.push(err51);
}
errors++;
}
}
}
else {
const err52 = {instancePath:instancePath+"/frames",schemaPath:"#/properties/frames/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.frames.type,parentSchema:schema11.properties.frames,data:data10};
if(vErrors === null){
vErrors = [err52];
}
else {
vErrors.push(err52);
}
errors++;
}
}
if(data.filters !== undefined){
let data21 = data.filters;
if(Array.isArray(data21)){
const len3 = data21.length;
for(let i3=0; i3<len3; i3++){
let data22 = data21[i3];
if(data22 && typeof data22 == "object" && !Array.isArray(data22)){
if(data22.id === undefined){
const err53 = {instancePath:instancePath+"/filters/" + i3,schemaPath:"#/properties/filters/items/required",keyword:"required",params:{missingProperty: "id"},message:"must have required property '"+"id"+"'",schema:schema11.properties.filters.items.required,parentSchema:schema11.properties.filters.items,data:data22};
if(vErrors === null){
vErrors = [err53];
}
else {
vErrors.push(err53);
}
errors++;
}
if(data22.lines === undefined){
const err54 = {instancePath:instancePath+"/filters/" + i3,schemaPath:"#/properties/filters/items/required",keyword:"required",params:{missingProperty: "lines"},message:"must have required property '"+"lines"+"'",schema:schema11.properties.filters.items.required,parentSchema:schema11.properties.filters.items,data:data22};
if(vErrors === null){
vErrors = [err54];
}
else {
vErrors.push(err54);
}
errors++;
}
if(data22.id !== undefined){
let data23 = data22.id;
if(typeof data23 === "string"){
if(!pattern2.test(data23)){
const err55 = {instancePath:instancePath+"/filters/" + i3+"/id",schemaPath:"#/properties/filters/items/properties/id/pattern",keyword:"pattern",params:{pattern: "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$"},message:"must match pattern \""+"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$"+"\"",schema:"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$",parentSchema:schema11.properties.filters.items.properties.id,data:data23};
if(vErrors === null){
vErrors = [err55];
}
else {
vErrors.push(err55);
}
errors++;
}
}
else {
const err56 = {instancePath:instancePath+"/filters/" + i3+"/id",schemaPath:"#/properties/filters/items/properties/id/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.id.type,parentSchema:schema11.properties.filters.items.properties.id,data:data23};
if(vErrors === null){
vErrors = [err56];
}
else {
vErrors.push(err56);
}
errors++;
}
}
if(data22.label !== undefined){
let data24 = data22.label;
if(typeof data24 !== "string"){
const err57 = {instancePath:instancePath+"/filters/" + i3+"/label",schemaPath:"#/properties/filters/items/properties/label/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.label.type,parentSchema:schema11.properties.filters.items.properties.label,data:data24};
if(vErrors === null){
vErrors = [err57];
}
else {
vErrors.push(err57);
}
errors++;
}
}
if(data22.lines !== undefined){
let data25 = data22.lines;
if(Array.isArray(data25)){
const len4 = data25.length;
for(let i4=0; i4<len4; i4++){
let data26 = data25[i4];
if(typeof data26 === "string"){
if(func2(data26) < 1){
const err58 = {instancePath:instancePath+"/filters/" + i3+"/lines/" + i4,schemaPath:"#/properties/filters/items/properties/lines/items/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.filters.items.properties.lines.items,data:data26};
if(vErrors === null){
vErrors = [err58];
}
else {
vErrors.push(err58);
}
errors++;
}
}
else {
const err59 = {instancePath:instancePath+"/filters/" + i3+"/lines/" + i4,schemaPath:"#/properties/filters/items/properties/lines/items/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.lines.items.type,parentSchema:schema11.properties.filters.items.properties.lines.items,data:data26};
if(vErrors === null){
vErrors = [err59];
}
else {
vErrors.push(err59);
}
errors++;
}
}
}
else {
const err60 = {instancePath:instancePath+"/filters/" + i3+"/lines",schemaPath:"#/properties/filters/items/properties/lines/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.filters.items.properties.lines.type,parentSchema:schema11.properties.filters.items.properties.lines,data:data25};
if(vErrors === null){
vErrors = [err60];
}
else {
vErrors.push(err60);
}
errors++;
}
}
if(data22.claims !== undefined){
let data27 = data22.claims;
if(data27 && typeof data27 == "object" && !Array.isArray(data27)){
if(data27.fwhmNm !== undefined){
if(!(validate11(data27.fwhmNm, {instancePath:instancePath+"/filters/" + i3+"/claims/fwhmNm",parentData:data27,parentDataProperty:"fwhmNm",rootData}))){
vErrors = vErrors === null ? validate11.errors : vErrors.concat(validate11.errors);
errors = vErrors.length;
}
}
if(data27.centreNm !== undefined){
if(!(validate11(data27.centreNm, {instancePath:instancePath+"/filters/" + i3+"/claims/centreNm",parentData:data27,parentDataProperty:"centreNm",rootData}))){
vErrors = vErrors === null ? validate11.errors : vErrors.concat(validate11.errors);
errors = vErrors.length;
}
}
if(data27.peakTransmittance !== undefined){
if(!(validate14(data27.peakTransmittance, {instancePath:instancePath+"/filters/" + i3+"/claims/peakTransmittance",parentData:data27,parentDataProperty:"peakTransmittance",rootData}))){
vErrors = vErrors === null ? validate14.errors : vErrors.concat(validate14.errors);
errors = vErrors.length;
}
}
if(data27.transmittanceAtLine !== undefined){
if(!(validate14(data27.transmittanceAtLine, {instancePath:instancePath+"/filters/" + i3+"/claims/transmittanceAtLine",parentData:data27,parentDataProperty:"transmittanceAtLine",rootData}))){
vErrors = vErrors === null ? validate14.errors : vErrors.concat(validate14.errors);
errors = vErrors.length;
}
}
if(data27.opticalDensity !== undefined){
if(!(validate17(data27.opticalDensity, {instancePath:instancePath+"/filters/" + i3+"/claims/opticalDensity",parentData:data27,parentDataProperty:"opticalDensity",rootData}))){
vErrors = vErrors === null ? validate17.errors : vErrors.concat(validate17.errors);
errors = vErrors.length;
}
}
}
else {
const err61 = {instancePath:instancePath+"/filters/" + i3+"/claims",schemaPath:"#/properties/filters/items/properties/claims/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.filters.items.properties.claims.type,parentSchema:schema11.properties.filters.items.properties.claims,data:data27};
if(vErrors === null){
vErrors = [err61];
}
else {
vErrors.push(err61);
}
errors++;
}
}
if(data22.price !== undefined){
let data33 = data22.price;
if(data33 && typeof data33 == "object" && !Array.isArray(data33)){
if(data33.amount === undefined){
const err62 = {instancePath:instancePath+"/filters/" + i3+"/price",schemaPath:"#/properties/filters/items/properties/price/required",keyword:"required",params:{missingProperty: "amount"},message:"must have required property '"+"amount"+"'",schema:schema11.properties.filters.items.properties.price.required,parentSchema:schema11.properties.filters.items.properties.price,data:data33};
if(vErrors === null){
vErrors = [err62];
}
else {
vErrors.push(err62);
}
errors++;
}
if(data33.currency === undefined){
const err63 = {instancePath:instancePath+"/filters/" + i3+"/price",schemaPath:"#/properties/filters/items/properties/price/required",keyword:"required",params:{missingProperty: "currency"},message:"must have required property '"+"currency"+"'",schema:schema11.properties.filters.items.properties.price.required,parentSchema:schema11.properties.filters.items.properties.price,data:data33};
if(vErrors === null){
vErrors = [err63];
}
else {
vErrors.push(err63);
}
errors++;
}
if(data33.amount !== undefined){
let data34 = data33.amount;
if((typeof data34 == "number") && (isFinite(data34))){
if(data34 < 0 || isNaN(data34)){
const err64 = {instancePath:instancePath+"/filters/" + i3+"/price/amount",schemaPath:"#/properties/filters/items/properties/price/properties/amount/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.filters.items.properties.price.properties.amount,data:data34};
if(vErrors === null){
vErrors = [err64];
}
else {
vErrors.push(err64);
}
errors++;
}
}
else {
const err65 = {instancePath:instancePath+"/filters/" + i3+"/price/amount",schemaPath:"#/properties/filters/items/properties/price/properties/amount/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.filters.items.properties.price.properties.amount.type,parentSchema:schema11.properties.filters.items.properties.price.properties.amount,data:data34};
if(vErrors === null){
vErrors = [err65];
}
else {
vErrors.push(err65);
}
errors++;
}
}
if(data33.currency !== undefined){
let data35 = data33.currency;
if(typeof data35 === "string"){
if(func2(data35) < 1){
const err66 = {instancePath:instancePath+"/filters/" + i3+"/price/currency",schemaPath:"#/properties/filters/items/properties/price/properties/currency/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.filters.items.properties.price.properties.currency,data:data35};
if(vErrors === null){
vErrors = [err66];
}
else {
vErrors.push(err66);
}
errors++;
}
}
else {
const err67 = {instancePath:instancePath+"/filters/" + i3+"/price/currency",schemaPath:"#/properties/filters/items/properties/price/properties/currency/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.price.properties.currency.type,parentSchema:schema11.properties.filters.items.properties.price.properties.currency,data:data35};
if(vErrors === null){
vErrors = [err67];
}
else {
vErrors.push(err67);
}
errors++;
}
}
}
else {
const err68 = {instancePath:instancePath+"/filters/" + i3+"/price",schemaPath:"#/properties/filters/items/properties/price/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.filters.items.properties.price.type,parentSchema:schema11.properties.filters.items.properties.price,data:data33};
if(vErrors === null){
vErrors = [err68];
}
else {
vErrors.push(err68);
}
errors++;
}
}
}
else {
const err69 = {instancePath:instancePath+"/filters/" + i3,schemaPath:"#/properties/filters/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.filters.items.type,parentSchema:schema11.properties.filters.items,data:data22};
if(vErrors === null){
vErrors = [err69];
}
else {
vErrors.push(err69);
}
errors++;
}
}
}
else {
const err70 = {instancePath:instancePath+"/filters",schemaPath:"#/properties/filters/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.filters.type,parentSchema:schema11.properties.filters,data:data21};
if(vErrors === null){
vErrors = [err70];
}
else {
vErrors.push(err70);
}
errors++;
}
}
if(data.site !== undefined){
let data36 = data.site;
if(data36 && typeof data36 == "object" && !Array.isArray(data36)){
if(data36.skyBrightness !== undefined){
let data37 = data36.skyBrightness;
if((typeof data37 == "number") && (isFinite(data37))){
if(data37 > 30 || isNaN(data37)){
const err71 = {instancePath:instancePath+"/site/skyBrightness",schemaPath:"#/properties/site/properties/skyBrightness/maximum",keyword:"maximum",params:{comparison: "<=", limit: 30},message:"must be <= 30",schema:30,parentSchema:schema11.properties.site.properties.skyBrightness,data:data37};
if(vErrors === null){
vErrors = [err71];
}
else {
vErrors.push(err71);
}
errors++;
}
if(data37 < 0 || isNaN(data37)){
const err72 = {instancePath:instancePath+"/site/skyBrightness",schemaPath:"#/properties/site/properties/skyBrightness/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.skyBrightness,data:data37};
if(vErrors === null){
vErrors = [err72];
}
else {
vErrors.push(err72);
}
errors++;
}
}
else {
const err73 = {instancePath:instancePath+"/site/skyBrightness",schemaPath:"#/properties/site/properties/skyBrightness/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.skyBrightness.type,parentSchema:schema11.properties.site.properties.skyBrightness,data:data37};
if(vErrors === null){
vErrors = [err73];
}
else {
vErrors.push(err73);
}
errors++;
}
}
if(data36.lightSources !== undefined){
let data38 = data36.lightSources;
if(Array.isArray(data38)){
const len5 = data38.length;
for(let i5=0; i5<len5; i5++){
let data39 = data38[i5];
if(data39 && typeof data39 == "object" && !Array.isArray(data39)){
if(data39.source === undefined){
const err74 = {instancePath:instancePath+"/site/lightSources/" + i5,schemaPath:"#/properties/site/properties/lightSources/items/required",keyword:"required",params:{missingProperty: "source"},message:"must have required property '"+"source"+"'",schema:schema11.properties.site.properties.lightSources.items.required,parentSchema:schema11.properties.site.properties.lightSources.items,data:data39};
if(vErrors === null){
vErrors = [err74];
}
else {
vErrors.push(err74);
}
errors++;
}
if(data39.share === undefined){
const err75 = {instancePath:instancePath+"/site/lightSources/" + i5,schemaPath:"#/properties/site/properties/lightSources/items/required",keyword:"required",params:{missingProperty: "share"},message:"must have required property '"+"share"+"'",schema:schema11.properties.site.properties.lightSources.items.required,parentSchema:schema11.properties.site.properties.lightSources.items,data:data39};
if(vErrors === null){
vErrors = [err75];
}
else {
vErrors.push(err75);
}
errors++;
}
if(data39.source !== undefined){
let data40 = data39.source;
if(typeof data40 === "string"){
if(func2(data40) < 1){
const err76 = {instancePath:instancePath+"/site/lightSources/" + i5+"/source",schemaPath:"#/properties/site/properties/lightSources/items/properties/source/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.site.properties.lightSources.items.properties.source,data:data40};
if(vErrors === null){
vErrors = [err76];
}
else {
vErrors.push(err76);
}
errors++;
}
}
else {
const err77 = {instancePath:instancePath+"/site/lightSources/" + i5+"/source",schemaPath:"#/properties/site/properties/lightSources/items/properties/source/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.site.properties.lightSources.items.properties.source.type,parentSchema:schema11.properties.site.properties.lightSources.items.properties.source,data:data40};
if(vErrors === null){
vErrors = [err77];
}
else {
vErrors.push(err77);
}
errors++;
}
}
if(data39.share !== undefined){
let data41 = data39.share;
if((typeof data41 == "number") && (isFinite(data41))){
if(data41 < 0 || isNaN(data41)){
const err78 = {instancePath:instancePath+"/site/lightSources/" + i5+"/share",schemaPath:"#/properties/site/properties/lightSources/items/properties/share/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.lightSources.items.properties.share,data:data41};
if(vErrors === null){
vErrors = [err78];
}
else {
vErrors.push(err78);
}
errors++;
}
}
else {
const err79 = {instancePath:instancePath+"/site/lightSources/" + i5+"/share",schemaPath:"#/properties/site/properties/lightSources/items/properties/share/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.lightSources.items.properties.share.type,parentSchema:schema11.properties.site.properties.lightSources.items.properties.share,data:data41};
if(vErrors === null){
vErrors = [err79];
}
else {
vErrors.push(err79);
}
errors++;
}
}
}
else {
const err80 = {instancePath:instancePath+"/site/lightSources/" + i5,schemaPath:"#/properties/site/properties/lightSources/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.lightSources.items.type,parentSchema:schema11.properties.site.properties.lightSources.items,data:data39};
if(vErrors === null){
vErrors = [err80];
}
else {
vErrors.push(err80);
}
errors++;
}
}
}
else {
const err81 = {instancePath:instancePath+"/site/lightSources",schemaPath:"#/properties/site/properties/lightSources/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.site.properties.lightSources.type,parentSchema:schema11.properties.site.properties.lightSources,data:data38};
if(vErrors === null){
vErrors = [err81];
}
else {
vErrors.push(err81);
}
errors++;
}
}
if(data36.moon !== undefined){
let data42 = data36.moon;
if(data42 && typeof data42 == "object" && !Array.isArray(data42)){
if(data42.illuminatedFraction !== undefined){
let data43 = data42.illuminatedFraction;
if((typeof data43 == "number") && (isFinite(data43))){
if(data43 > 1 || isNaN(data43)){
const err82 = {instancePath:instancePath+"/site/moon/illuminatedFraction",schemaPath:"#/properties/site/properties/moon/properties/illuminatedFraction/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.site.properties.moon.properties.illuminatedFraction,data:data43};
if(vErrors === null){
vErrors = [err82];
}
else {
vErrors.push(err82);
}
errors++;
}
if(data43 < 0 || isNaN(data43)){
const err83 = {instancePath:instancePath+"/site/moon/illuminatedFraction",schemaPath:"#/properties/site/properties/moon/properties/illuminatedFraction/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.moon.properties.illuminatedFraction,data:data43};
if(vErrors === null){
vErrors = [err83];
}
else {
vErrors.push(err83);
}
errors++;
}
}
else {
const err84 = {instancePath:instancePath+"/site/moon/illuminatedFraction",schemaPath:"#/properties/site/properties/moon/properties/illuminatedFraction/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.illuminatedFraction.type,parentSchema:schema11.properties.site.properties.moon.properties.illuminatedFraction,data:data43};
if(vErrors === null){
vErrors = [err84];
}
else {
vErrors.push(err84);
}
errors++;
}
}
if(data42.altitudeDeg !== undefined){
let data44 = data42.altitudeDeg;
if((typeof data44 == "number") && (isFinite(data44))){
if(data44 > 90 || isNaN(data44)){
const err85 = {instancePath:instancePath+"/site/moon/altitudeDeg",schemaPath:"#/properties/site/properties/moon/properties/altitudeDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 90},message:"must be <= 90",schema:90,parentSchema:schema11.properties.site.properties.moon.properties.altitudeDeg,data:data44};
if(vErrors === null){
vErrors = [err85];
}
else {
vErrors.push(err85);
}
errors++;
}
if(data44 < -90 || isNaN(data44)){
const err86 = {instancePath:instancePath+"/site/moon/altitudeDeg",schemaPath:"#/properties/site/properties/moon/properties/altitudeDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: -90},message:"must be >= -90",schema:-90,parentSchema:schema11.properties.site.properties.moon.properties.altitudeDeg,data:data44};
if(vErrors === null){
vErrors = [err86];
}
else {
vErrors.push(err86);
}
errors++;
}
}
else {
const err87 = {instancePath:instancePath+"/site/moon/altitudeDeg",schemaPath:"#/properties/site/properties/moon/properties/altitudeDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.altitudeDeg.type,parentSchema:schema11.properties.site.properties.moon.properties.altitudeDeg,data:data44};
if(vErrors === null){
vErrors = [err87];
}
else {
vErrors.push(err87);
}
errors++;
}
}
if(data42.separationDeg !== undefined){
let data45 = data42.separationDeg;
if((typeof data45 == "number") && (isFinite(data45))){
if(data45 > 180 || isNaN(data45)){
const err88 = {instancePath:instancePath+"/site/moon/separationDeg",schemaPath:"#/properties/site/properties/moon/properties/separationDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 180},message:"must be <= 180",schema:180,parentSchema:schema11.properties.site.properties.moon.properties.separationDeg,data:data45};
if(vErrors === null){
vErrors = [err88];
}
else {
vErrors.push(err88);
}
errors++;
}
if(data45 < 0 || isNaN(data45)){
const err89 = {instancePath:instancePath+"/site/moon/separationDeg",schemaPath:"#/properties/site/properties/moon/properties/separationDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.moon.properties.separationDeg,data:data45};
if(vErrors === null){
vErrors = [err89];
}
else {
vErrors.push(err89);
}
errors++;
}
}
else {
const err90 = {instancePath:instancePath+"/site/moon/separationDeg",schemaPath:"#/properties/site/properties/moon/properties/separationDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.separationDeg.type,parentSchema:schema11.properties.site.properties.moon.properties.separationDeg,data:data45};
if(vErrors === null){
vErrors = [err90];
}
else {
vErrors.push(err90);
}
errors++;
}
}
}
else {
const err91 = {instancePath:instancePath+"/site/moon",schemaPath:"#/properties/site/properties/moon/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.moon.type,parentSchema:schema11.properties.site.properties.moon,data:data42};
if(vErrors === null){
vErrors = [err91];
}
else {
vErrors.push(err91);
}
errors++;
}
}
if(data36.airmass !== undefined){
let data46 = data36.airmass;
if((typeof data46 == "number") && (isFinite(data46))){
if(data46 > 40 || isNaN(data46)){
const err92 = {instancePath:instancePath+"/site/airmass",schemaPath:"#/properties/site/properties/airmass/maximum",keyword:"maximum",params:{comparison: "<=", limit: 40},message:"must be <= 40",schema:40,parentSchema:schema11.properties.site.properties.airmass,data:data46};
if(vErrors === null){
vErrors = [err92];
}
else {
vErrors.push(err92);
}
errors++;
}
if(data46 < 1 || isNaN(data46)){
const err93 = {instancePath:instancePath+"/site/airmass",schemaPath:"#/properties/site/properties/airmass/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.site.properties.airmass,data:data46};
if(vErrors === null){
vErrors = [err93];
}
else {
vErrors.push(err93);
}
errors++;
}
}
else {
const err94 = {instancePath:instancePath+"/site/airmass",schemaPath:"#/properties/site/properties/airmass/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.airmass.type,parentSchema:schema11.properties.site.properties.airmass,data:data46};
if(vErrors === null){
vErrors = [err94];
}
else {
vErrors.push(err94);
}
errors++;
}
}
if(data36.quantumEfficiency !== undefined){
let data47 = data36.quantumEfficiency;
const _errs95 = errors;
let valid26 = false;
const _errs96 = errors;
if((typeof data47 == "number") && (isFinite(data47))){
if(data47 > 1 || isNaN(data47)){
const err95 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[0],data:data47};
if(vErrors === null){
vErrors = [err95];
}
else {
vErrors.push(err95);
}
errors++;
}
if(data47 <= 0 || isNaN(data47)){
const err96 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[0],data:data47};
if(vErrors === null){
vErrors = [err96];
}
else {
vErrors.push(err96);
}
errors++;
}
}
else {
const err97 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.quantumEfficiency.anyOf[0].type,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[0],data:data47};
if(vErrors === null){
vErrors = [err97];
}
else {
vErrors.push(err97);
}
errors++;
}
var _valid2 = _errs96 === errors;
valid26 = valid26 || _valid2;
if(!valid26){
const _errs98 = errors;
if(Array.isArray(data47)){
if(data47.length < 2){
const err98 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1],data:data47};
if(vErrors === null){
vErrors = [err98];
}
else {
vErrors.push(err98);
}
errors++;
}
const len6 = data47.length;
for(let i6=0; i6<len6; i6++){
let data48 = data47[i6];
if(Array.isArray(data48)){
if(data48.length > 2){
const err99 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6,schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items,data:data48};
if(vErrors === null){
vErrors = [err99];
}
else {
vErrors.push(err99);
}
errors++;
}
if(data48.length < 2){
const err100 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6,schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items,data:data48};
if(vErrors === null){
vErrors = [err100];
}
else {
vErrors.push(err100);
}
errors++;
}
const len7 = data48.length;
if(len7 > 0){
let data49 = data48[0];
if((typeof data49 == "number") && (isFinite(data49))){
if(data49 <= 0 || isNaN(data49)){
const err101 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/0",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/items/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[0],data:data49};
if(vErrors === null){
vErrors = [err101];
}
else {
vErrors.push(err101);
}
errors++;
}
}
else {
const err102 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/0",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[0].type,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[0],data:data49};
if(vErrors === null){
vErrors = [err102];
}
else {
vErrors.push(err102);
}
errors++;
}
}
if(len7 > 1){
let data50 = data48[1];
if((typeof data50 == "number") && (isFinite(data50))){
if(data50 > 1 || isNaN(data50)){
const err103 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/1",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[1],data:data50};
if(vErrors === null){
vErrors = [err103];
}
else {
vErrors.push(err103);
}
errors++;
}
if(data50 < 0 || isNaN(data50)){
const err104 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/1",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[1],data:data50};
if(vErrors === null){
vErrors = [err104];
}
else {
vErrors.push(err104);
}
errors++;
}
}
else {
const err105 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/1",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[1].type,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.items[1],data:data50};
if(vErrors === null){
vErrors = [err105];
}
else {
vErrors.push(err105);
}
errors++;
}
}
}
else {
const err106 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6,schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/items/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items.type,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].items,data:data48};
if(vErrors === null){
vErrors = [err106];
}
else {
vErrors.push(err106);
}
errors++;
}
}
}
else {
const err107 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.site.properties.quantumEfficiency.anyOf[1].type,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[1],data:data47};
if(vErrors === null){
vErrors = [err107];
}
else {
vErrors.push(err107);
}
errors++;
}
var _valid2 = _errs98 === errors;
valid26 = valid26 || _valid2;
}
if(!valid26){
const err108 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.site.properties.quantumEfficiency.anyOf,parentSchema:schema11.properties.site.properties.quantumEfficiency,data:data47};
if(vErrors === null){
vErrors = [err108];
}
else {
vErrors.push(err108);
}
errors++;
}
else {
errors = _errs95;
if(vErrors !== null){
if(_errs95){
vErrors.length = _errs95;
}
else {
vErrors = null;
}
}
}
}
}
else {
const err109 = {instancePath:instancePath+"/site",schemaPath:"#/properties/site/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.type,parentSchema:schema11.properties.site,data:data36};
if(vErrors === null){
vErrors = [err109];
}
else {
vErrors.push(err109);
}
errors++;
}
}
if(data.decision !== undefined){
let data51 = data.decision;
if(data51 && typeof data51 == "object" && !Array.isArray(data51)){
if(data51.rule === undefined){
const err110 = {instancePath:instancePath+"/decision",schemaPath:"#/properties/decision/required",keyword:"required",params:{missingProperty: "rule"},message:"must have required property '"+"rule"+"'",schema:schema11.properties.decision.required,parentSchema:schema11.properties.decision,data:data51};
if(vErrors === null){
vErrors = [err110];
}
else {
vErrors.push(err110);
}
errors++;
}
if(data51.rule !== undefined){
let data52 = data51.rule;
if(!(((data52 === "probability") || (data52 === "simple")) || (data52 === "guarded"))){
const err111 = {instancePath:instancePath+"/decision/rule",schemaPath:"#/properties/decision/properties/rule/enum",keyword:"enum",params:{allowedValues: schema11.properties.decision.properties.rule.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.decision.properties.rule.enum,parentSchema:schema11.properties.decision.properties.rule,data:data52};
if(vErrors === null){
vErrors = [err111];
}
else {
vErrors.push(err111);
}
errors++;
}
}
if(data51.probability !== undefined){
let data53 = data51.probability;
if((typeof data53 == "number") && (isFinite(data53))){
if(data53 >= 1 || isNaN(data53)){
const err112 = {instancePath:instancePath+"/decision/probability",schemaPath:"#/properties/decision/properties/probability/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema11.properties.decision.properties.probability,data:data53};
if(vErrors === null){
vErrors = [err112];
}
else {
vErrors.push(err112);
}
errors++;
}
if(data53 <= 0.5 || isNaN(data53)){
const err113 = {instancePath:instancePath+"/decision/probability",schemaPath:"#/properties/decision/properties/probability/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0.5},message:"must be > 0.5",schema:0.5,parentSchema:schema11.properties.decision.properties.probability,data:data53};
if(vErrors === null){
vErrors = [err113];
}
else {
vErrors.push(err113);
}
errors++;
}
}
else {
const err114 = {instancePath:instancePath+"/decision/probability",schemaPath:"#/properties/decision/properties/probability/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.decision.properties.probability.type,parentSchema:schema11.properties.decision.properties.probability,data:data53};
if(vErrors === null){
vErrors = [err114];
}
else {
vErrors.push(err114);
}
errors++;
}
}
if(data51.multiple !== undefined){
let data54 = data51.multiple;
if((typeof data54 == "number") && (isFinite(data54))){
if(data54 > 10 || isNaN(data54)){
const err115 = {instancePath:instancePath+"/decision/multiple",schemaPath:"#/properties/decision/properties/multiple/maximum",keyword:"maximum",params:{comparison: "<=", limit: 10},message:"must be <= 10",schema:10,parentSchema:schema11.properties.decision.properties.multiple,data:data54};
if(vErrors === null){
vErrors = [err115];
}
else {
vErrors.push(err115);
}
errors++;
}
if(data54 < 0 || isNaN(data54)){
const err116 = {instancePath:instancePath+"/decision/multiple",schemaPath:"#/properties/decision/properties/multiple/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.decision.properties.multiple,data:data54};
if(vErrors === null){
vErrors = [err116];
}
else {
vErrors.push(err116);
}
errors++;
}
}
else {
const err117 = {instancePath:instancePath+"/decision/multiple",schemaPath:"#/properties/decision/properties/multiple/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.decision.properties.multiple.type,parentSchema:schema11.properties.decision.properties.multiple,data:data54};
if(vErrors === null){
vErrors = [err117];
}
else {
vErrors.push(err117);
}
errors++;
}
}
if(data51.coverageFactor !== undefined){
let data55 = data51.coverageFactor;
if((typeof data55 == "number") && (isFinite(data55))){
if(data55 > 10 || isNaN(data55)){
const err118 = {instancePath:instancePath+"/decision/coverageFactor",schemaPath:"#/properties/decision/properties/coverageFactor/maximum",keyword:"maximum",params:{comparison: "<=", limit: 10},message:"must be <= 10",schema:10,parentSchema:schema11.properties.decision.properties.coverageFactor,data:data55};
if(vErrors === null){
vErrors = [err118];
}
else {
vErrors.push(err118);
}
errors++;
}
if(data55 <= 0 || isNaN(data55)){
const err119 = {instancePath:instancePath+"/decision/coverageFactor",schemaPath:"#/properties/decision/properties/coverageFactor/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.decision.properties.coverageFactor,data:data55};
if(vErrors === null){
vErrors = [err119];
}
else {
vErrors.push(err119);
}
errors++;
}
}
else {
const err120 = {instancePath:instancePath+"/decision/coverageFactor",schemaPath:"#/properties/decision/properties/coverageFactor/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.decision.properties.coverageFactor.type,parentSchema:schema11.properties.decision.properties.coverageFactor,data:data55};
if(vErrors === null){
vErrors = [err120];
}
else {
vErrors.push(err120);
}
errors++;
}
}
}
else {
const err121 = {instancePath:instancePath+"/decision",schemaPath:"#/properties/decision/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.decision.type,parentSchema:schema11.properties.decision,data:data51};
if(vErrors === null){
vErrors = [err121];
}
else {
vErrors.push(err121);
}
errors++;
}
}
if(data.bench !== undefined){
let data56 = data.bench;
if(data56 && typeof data56 == "object" && !Array.isArray(data56)){
if(data56.fNumber !== undefined){
let data57 = data56.fNumber;
if((typeof data57 == "number") && (isFinite(data57))){
if(data57 <= 0 || isNaN(data57)){
const err122 = {instancePath:instancePath+"/bench/fNumber",schemaPath:"#/properties/bench/properties/fNumber/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.bench.properties.fNumber,data:data57};
if(vErrors === null){
vErrors = [err122];
}
else {
vErrors.push(err122);
}
errors++;
}
}
else {
const err123 = {instancePath:instancePath+"/bench/fNumber",schemaPath:"#/properties/bench/properties/fNumber/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.bench.properties.fNumber.type,parentSchema:schema11.properties.bench.properties.fNumber,data:data57};
if(vErrors === null){
vErrors = [err123];
}
else {
vErrors.push(err123);
}
errors++;
}
}
if(data56.temperatureC !== undefined){
let data58 = data56.temperatureC;
if((typeof data58 == "number") && (isFinite(data58))){
if(data58 > 200 || isNaN(data58)){
const err124 = {instancePath:instancePath+"/bench/temperatureC",schemaPath:"#/properties/bench/properties/temperatureC/maximum",keyword:"maximum",params:{comparison: "<=", limit: 200},message:"must be <= 200",schema:200,parentSchema:schema11.properties.bench.properties.temperatureC,data:data58};
if(vErrors === null){
vErrors = [err124];
}
else {
vErrors.push(err124);
}
errors++;
}
if(data58 < -100 || isNaN(data58)){
const err125 = {instancePath:instancePath+"/bench/temperatureC",schemaPath:"#/properties/bench/properties/temperatureC/minimum",keyword:"minimum",params:{comparison: ">=", limit: -100},message:"must be >= -100",schema:-100,parentSchema:schema11.properties.bench.properties.temperatureC,data:data58};
if(vErrors === null){
vErrors = [err125];
}
else {
vErrors.push(err125);
}
errors++;
}
}
else {
const err126 = {instancePath:instancePath+"/bench/temperatureC",schemaPath:"#/properties/bench/properties/temperatureC/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.bench.properties.temperatureC.type,parentSchema:schema11.properties.bench.properties.temperatureC,data:data58};
if(vErrors === null){
vErrors = [err126];
}
else {
vErrors.push(err126);
}
errors++;
}
}
if(data56.spot !== undefined){
let data59 = data56.spot;
if(typeof data59 === "string"){
if(func2(data59) > 200){
const err127 = {instancePath:instancePath+"/bench/spot",schemaPath:"#/properties/bench/properties/spot/maxLength",keyword:"maxLength",params:{limit: 200},message:"must NOT have more than 200 characters",schema:200,parentSchema:schema11.properties.bench.properties.spot,data:data59};
if(vErrors === null){
vErrors = [err127];
}
else {
vErrors.push(err127);
}
errors++;
}
if(func2(data59) < 1){
const err128 = {instancePath:instancePath+"/bench/spot",schemaPath:"#/properties/bench/properties/spot/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.bench.properties.spot,data:data59};
if(vErrors === null){
vErrors = [err128];
}
else {
vErrors.push(err128);
}
errors++;
}
}
else {
const err129 = {instancePath:instancePath+"/bench/spot",schemaPath:"#/properties/bench/properties/spot/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.bench.properties.spot.type,parentSchema:schema11.properties.bench.properties.spot,data:data59};
if(vErrors === null){
vErrors = [err129];
}
else {
vErrors.push(err129);
}
errors++;
}
}
}
else {
const err130 = {instancePath:instancePath+"/bench",schemaPath:"#/properties/bench/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.bench.type,parentSchema:schema11.properties.bench,data:data56};
if(vErrors === null){
vErrors = [err130];
}
else {
vErrors.push(err130);
}
errors++;
}
}
if(data.beam !== undefined){
let data60 = data.beam;
if(data60 && typeof data60 == "object" && !Array.isArray(data60)){
if(data60.fNumber !== undefined){
let data61 = data60.fNumber;
const _errs126 = errors;
let valid33 = false;
const _errs127 = errors;
if((typeof data61 == "number") && (isFinite(data61))){
if(data61 <= 0 || isNaN(data61)){
const err131 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[0],data:data61};
if(vErrors === null){
vErrors = [err131];
}
else {
vErrors.push(err131);
}
errors++;
}
}
else {
const err132 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.fNumber.anyOf[0].type,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[0],data:data61};
if(vErrors === null){
vErrors = [err132];
}
else {
vErrors.push(err132);
}
errors++;
}
var _valid3 = _errs127 === errors;
valid33 = valid33 || _valid3;
if(!valid33){
const _errs129 = errors;
if(Array.isArray(data61)){
if(data61.length < 1){
const err133 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1],data:data61};
if(vErrors === null){
vErrors = [err133];
}
else {
vErrors.push(err133);
}
errors++;
}
const len8 = data61.length;
for(let i7=0; i7<len8; i7++){
let data62 = data61[i7];
if((typeof data62 == "number") && (isFinite(data62))){
if(data62 <= 0 || isNaN(data62)){
const err134 = {instancePath:instancePath+"/beam/fNumber/" + i7,schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/items/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1].items,data:data62};
if(vErrors === null){
vErrors = [err134];
}
else {
vErrors.push(err134);
}
errors++;
}
}
else {
const err135 = {instancePath:instancePath+"/beam/fNumber/" + i7,schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/items/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.fNumber.anyOf[1].items.type,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1].items,data:data62};
if(vErrors === null){
vErrors = [err135];
}
else {
vErrors.push(err135);
}
errors++;
}
}
}
else {
const err136 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.beam.properties.fNumber.anyOf[1].type,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1],data:data61};
if(vErrors === null){
vErrors = [err136];
}
else {
vErrors.push(err136);
}
errors++;
}
var _valid3 = _errs129 === errors;
valid33 = valid33 || _valid3;
}
if(!valid33){
const err137 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.beam.properties.fNumber.anyOf,parentSchema:schema11.properties.beam.properties.fNumber,data:data61};
if(vErrors === null){
vErrors = [err137];
}
else {
vErrors.push(err137);
}
errors++;
}
else {
errors = _errs126;
if(vErrors !== null){
if(_errs126){
vErrors.length = _errs126;
}
else {
vErrors = null;
}
}
}
}
if(data60.centralObstruction !== undefined){
let data63 = data60.centralObstruction;
if((typeof data63 == "number") && (isFinite(data63))){
if(data63 < 0 || isNaN(data63)){
const err138 = {instancePath:instancePath+"/beam/centralObstruction",schemaPath:"#/properties/beam/properties/centralObstruction/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.beam.properties.centralObstruction,data:data63};
if(vErrors === null){
vErrors = [err138];
}
else {
vErrors.push(err138);
}
errors++;
}
if(data63 >= 1 || isNaN(data63)){
const err139 = {instancePath:instancePath+"/beam/centralObstruction",schemaPath:"#/properties/beam/properties/centralObstruction/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema11.properties.beam.properties.centralObstruction,data:data63};
if(vErrors === null){
vErrors = [err139];
}
else {
vErrors.push(err139);
}
errors++;
}
}
else {
const err140 = {instancePath:instancePath+"/beam/centralObstruction",schemaPath:"#/properties/beam/properties/centralObstruction/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.centralObstruction.type,parentSchema:schema11.properties.beam.properties.centralObstruction,data:data63};
if(vErrors === null){
vErrors = [err140];
}
else {
vErrors.push(err140);
}
errors++;
}
}
if(data60.effectiveIndex !== undefined){
let data64 = data60.effectiveIndex;
const _errs136 = errors;
let valid36 = false;
const _errs137 = errors;
if((typeof data64 == "number") && (isFinite(data64))){
if(data64 > 5 || isNaN(data64)){
const err141 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[0],data:data64};
if(vErrors === null){
vErrors = [err141];
}
else {
vErrors.push(err141);
}
errors++;
}
if(data64 < 1 || isNaN(data64)){
const err142 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[0],data:data64};
if(vErrors === null){
vErrors = [err142];
}
else {
vErrors.push(err142);
}
errors++;
}
}
else {
const err143 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[0].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[0],data:data64};
if(vErrors === null){
vErrors = [err143];
}
else {
vErrors.push(err143);
}
errors++;
}
var _valid4 = _errs137 === errors;
valid36 = valid36 || _valid4;
if(!valid36){
const _errs139 = errors;
if(Array.isArray(data64)){
if(data64.length > 2){
const err144 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1],data:data64};
if(vErrors === null){
vErrors = [err144];
}
else {
vErrors.push(err144);
}
errors++;
}
if(data64.length < 2){
const err145 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1],data:data64};
if(vErrors === null){
vErrors = [err145];
}
else {
vErrors.push(err145);
}
errors++;
}
const len9 = data64.length;
if(len9 > 0){
let data65 = data64[0];
if((typeof data65 == "number") && (isFinite(data65))){
if(data65 > 5 || isNaN(data65)){
const err146 = {instancePath:instancePath+"/beam/effectiveIndex/0",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0],data:data65};
if(vErrors === null){
vErrors = [err146];
}
else {
vErrors.push(err146);
}
errors++;
}
if(data65 < 1 || isNaN(data65)){
const err147 = {instancePath:instancePath+"/beam/effectiveIndex/0",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0],data:data65};
if(vErrors === null){
vErrors = [err147];
}
else {
vErrors.push(err147);
}
errors++;
}
}
else {
const err148 = {instancePath:instancePath+"/beam/effectiveIndex/0",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0],data:data65};
if(vErrors === null){
vErrors = [err148];
}
else {
vErrors.push(err148);
}
errors++;
}
}
if(len9 > 1){
let data66 = data64[1];
if((typeof data66 == "number") && (isFinite(data66))){
if(data66 > 5 || isNaN(data66)){
const err149 = {instancePath:instancePath+"/beam/effectiveIndex/1",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1],data:data66};
if(vErrors === null){
vErrors = [err149];
}
else {
vErrors.push(err149);
}
errors++;
}
if(data66 < 1 || isNaN(data66)){
const err150 = {instancePath:instancePath+"/beam/effectiveIndex/1",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1],data:data66};
if(vErrors === null){
vErrors = [err150];
}
else {
vErrors.push(err150);
}
errors++;
}
}
else {
const err151 = {instancePath:instancePath+"/beam/effectiveIndex/1",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1],data:data66};
if(vErrors === null){
vErrors = [err151];
}
else {
vErrors.push(err151);
}
errors++;
}
}
}
else {
const err152 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1],data:data64};
if(vErrors === null){
vErrors = [err152];
}
else {
vErrors.push(err152);
}
errors++;
}
var _valid4 = _errs139 === errors;
valid36 = valid36 || _valid4;
}
if(!valid36){
const err153 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.beam.properties.effectiveIndex.anyOf,parentSchema:schema11.properties.beam.properties.effectiveIndex,data:data64};
if(vErrors === null){
vErrors = [err153];
}
else {
vErrors.push(err153);
}
errors++;
}
else {
errors = _errs136;
if(vErrors !== null){
if(_errs136){
vErrors.length = _errs136;
}
else {
vErrors = null;
}
}
}
}
}
else {
const err154 = {instancePath:instancePath+"/beam",schemaPath:"#/properties/beam/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.beam.type,parentSchema:schema11.properties.beam,data:data60};
if(vErrors === null){
vErrors = [err154];
}
else {
vErrors.push(err154);
}
errors++;
}
}
if(data.stars !== undefined){
let data67 = data.stars;
if(Array.isArray(data67)){
const len10 = data67.length;
for(let i8=0; i8<len10; i8++){
let data68 = data67[i8];
if(data68 && typeof data68 == "object" && !Array.isArray(data68)){
if(data68.filter === undefined){
const err155 = {instancePath:instancePath+"/stars/" + i8,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "filter"},message:"must have required property '"+"filter"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data68};
if(vErrors === null){
vErrors = [err155];
}
else {
vErrors.push(err155);
}
errors++;
}
if(data68.file === undefined){
const err156 = {instancePath:instancePath+"/stars/" + i8,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "file"},message:"must have required property '"+"file"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data68};
if(vErrors === null){
vErrors = [err156];
}
else {
vErrors.push(err156);
}
errors++;
}
if(data68.pixelSizeUm === undefined){
const err157 = {instancePath:instancePath+"/stars/" + i8,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "pixelSizeUm"},message:"must have required property '"+"pixelSizeUm"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data68};
if(vErrors === null){
vErrors = [err157];
}
else {
vErrors.push(err157);
}
errors++;
}
if(data68.fNumber === undefined){
const err158 = {instancePath:instancePath+"/stars/" + i8,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "fNumber"},message:"must have required property '"+"fNumber"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data68};
if(vErrors === null){
vErrors = [err158];
}
else {
vErrors.push(err158);
}
errors++;
}
if(data68.saturationCounts === undefined){
const err159 = {instancePath:instancePath+"/stars/" + i8,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "saturationCounts"},message:"must have required property '"+"saturationCounts"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data68};
if(vErrors === null){
vErrors = [err159];
}
else {
vErrors.push(err159);
}
errors++;
}
if(data68.filter !== undefined){
let data69 = data68.filter;
if(typeof data69 === "string"){
if(func2(data69) < 1){
const err160 = {instancePath:instancePath+"/stars/" + i8+"/filter",schemaPath:"#/properties/stars/items/properties/filter/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.filter,data:data69};
if(vErrors === null){
vErrors = [err160];
}
else {
vErrors.push(err160);
}
errors++;
}
}
else {
const err161 = {instancePath:instancePath+"/stars/" + i8+"/filter",schemaPath:"#/properties/stars/items/properties/filter/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.filter.type,parentSchema:schema11.properties.stars.items.properties.filter,data:data69};
if(vErrors === null){
vErrors = [err161];
}
else {
vErrors.push(err161);
}
errors++;
}
}
if(data68.file !== undefined){
let data70 = data68.file;
if(typeof data70 === "string"){
if(func2(data70) < 1){
const err162 = {instancePath:instancePath+"/stars/" + i8+"/file",schemaPath:"#/properties/stars/items/properties/file/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.file,data:data70};
if(vErrors === null){
vErrors = [err162];
}
else {
vErrors.push(err162);
}
errors++;
}
}
else {
const err163 = {instancePath:instancePath+"/stars/" + i8+"/file",schemaPath:"#/properties/stars/items/properties/file/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.file.type,parentSchema:schema11.properties.stars.items.properties.file,data:data70};
if(vErrors === null){
vErrors = [err163];
}
else {
vErrors.push(err163);
}
errors++;
}
}
if(data68.pixelSizeUm !== undefined){
let data71 = data68.pixelSizeUm;
if((typeof data71 == "number") && (isFinite(data71))){
if(data71 <= 0 || isNaN(data71)){
const err164 = {instancePath:instancePath+"/stars/" + i8+"/pixelSizeUm",schemaPath:"#/properties/stars/items/properties/pixelSizeUm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.pixelSizeUm,data:data71};
if(vErrors === null){
vErrors = [err164];
}
else {
vErrors.push(err164);
}
errors++;
}
}
else {
const err165 = {instancePath:instancePath+"/stars/" + i8+"/pixelSizeUm",schemaPath:"#/properties/stars/items/properties/pixelSizeUm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.pixelSizeUm.type,parentSchema:schema11.properties.stars.items.properties.pixelSizeUm,data:data71};
if(vErrors === null){
vErrors = [err165];
}
else {
vErrors.push(err165);
}
errors++;
}
}
if(data68.fNumber !== undefined){
let data72 = data68.fNumber;
if((typeof data72 == "number") && (isFinite(data72))){
if(data72 <= 0 || isNaN(data72)){
const err166 = {instancePath:instancePath+"/stars/" + i8+"/fNumber",schemaPath:"#/properties/stars/items/properties/fNumber/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.fNumber,data:data72};
if(vErrors === null){
vErrors = [err166];
}
else {
vErrors.push(err166);
}
errors++;
}
}
else {
const err167 = {instancePath:instancePath+"/stars/" + i8+"/fNumber",schemaPath:"#/properties/stars/items/properties/fNumber/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.fNumber.type,parentSchema:schema11.properties.stars.items.properties.fNumber,data:data72};
if(vErrors === null){
vErrors = [err167];
}
else {
vErrors.push(err167);
}
errors++;
}
}
if(data68.saturationCounts !== undefined){
let data73 = data68.saturationCounts;
if((typeof data73 == "number") && (isFinite(data73))){
if(data73 <= 0 || isNaN(data73)){
const err168 = {instancePath:instancePath+"/stars/" + i8+"/saturationCounts",schemaPath:"#/properties/stars/items/properties/saturationCounts/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.saturationCounts,data:data73};
if(vErrors === null){
vErrors = [err168];
}
else {
vErrors.push(err168);
}
errors++;
}
}
else {
const err169 = {instancePath:instancePath+"/stars/" + i8+"/saturationCounts",schemaPath:"#/properties/stars/items/properties/saturationCounts/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.saturationCounts.type,parentSchema:schema11.properties.stars.items.properties.saturationCounts,data:data73};
if(vErrors === null){
vErrors = [err169];
}
else {
vErrors.push(err169);
}
errors++;
}
}
}
else {
const err170 = {instancePath:instancePath+"/stars/" + i8,schemaPath:"#/properties/stars/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.stars.items.type,parentSchema:schema11.properties.stars.items,data:data68};
if(vErrors === null){
vErrors = [err170];
}
else {
vErrors.push(err170);
}
errors++;
}
}
}
else {
const err171 = {instancePath:instancePath+"/stars",schemaPath:"#/properties/stars/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.stars.type,parentSchema:schema11.properties.stars,data:data67};
if(vErrors === null){
vErrors = [err171];
}
else {
vErrors.push(err171);
}
errors++;
}
}
}
else {
const err172 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.type,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err172];
}
else {
vErrors.push(err172);
}
errors++;
}
validate10.errors = vErrors;
return errors === 0;
}
